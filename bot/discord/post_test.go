package discord

import (
	"errors"
	"strings"
	"testing"

	"ripen/bot/discord/discordtest"
	"ripen/commands"
)

func TestPostsHaveWordsForPicturesAndMentionNobody(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c := clientOf(t, srv)
	m := Message{Content: "@everyone", Files: []File{{Name: "chart.png", Type: "image/png", Alt: "ammonia falls", Data: []byte("x")}}}
	for range 2 {
		if err := c.Post(t.Context(), forum, m, "again"); err != nil {
			t.Fatal(err)
		}
	}
	posts := srv.Posts()
	if len(posts) != 1 || len(posts[0].Attachments) != 1 || posts[0].Attachments[0].Description != "ammonia falls" || len(posts[0].Files) != 1 {
		t.Fatalf("posted %+v", posts)
	}
	if parse, ok := posts[0].Raw["allowed_mentions"].(map[string]any)["parse"].([]any); !ok || len(parse) != 0 {
		t.Errorf("mentions %v", posts[0].Raw["allowed_mentions"])
	}
}

// A post whose answer was lost on the way is tried again, and stands there once.
func TestPostsAreSentOnce(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c := clientOf(t, srv)
	srv.Lose("create_message", 1)
	const week, next = "weekly summary of the club of 2026-03-01", "weekly summary of the club of 2026-03-08"
	for _, nonce := range []string{week, week, next} {
		if err := c.Post(t.Context(), forum, Message{Content: nonce}, nonce); err != nil {
			t.Fatal(err)
		}
	}
	if posts := srv.Posts(); len(posts) != 2 || posts[0].Content != week || posts[1].Content != next {
		t.Errorf("%d posts, want one for each week", len(posts))
	}
}

func TestPostTellsWhatTheClubHasToMend(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c := clientOf(t, srv)
	const gone, hidden, mute = "300000000000000007", "300000000000000008", "300000000000000009"
	srv.Delete(gone)
	srv.Hide(hidden)
	srv.Mute(mute)
	for channel, want := range map[string]error{gone: ErrChannelGone, hidden: ErrNotAllowed, mute: ErrNotAllowed, "general": ErrChannelGone, "../users": ErrChannelGone} {
		before := len(srv.Calls())
		if err := c.Post(t.Context(), channel, Message{Content: "x"}, "n"); !errors.Is(err, want) {
			t.Errorf("posting to %s ends with %v, not with %v", channel, err, want)
		}
		if n := len(srv.Calls()) - before; n > 1 {
			t.Errorf("%d calls to post to %s", n, channel)
		}
	}
	srv.Fail("create_message", 404, 1) // not from the platform: it has no code
	if err := c.Post(t.Context(), forum, Message{Content: "x"}, "n"); err == nil || errors.Is(err, ErrChannelGone) {
		t.Errorf("a refusal without a code is %v", err)
	}
}

// A long reply is posted in parts; where one failed, the rest is posted later,
// and nothing twice.
func TestLongRepliesArePostedInParts(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c := clientOf(t, srv)
	text := strings.TrimSpace(strings.Repeat("a line of the summary\n", 250))
	reply := commands.Reply{OK: true, Text: text, Files: []commands.File{{Name: "a.png", Alt: "what it shows", Data: []byte("x")}}}
	srv.Fail("create_message", 403, 1)
	if err := c.PostReply(t.Context(), forum, reply, "week 10"); err == nil {
		t.Fatal("a refused post is no error")
	}
	for range 2 {
		if err := c.PostReply(t.Context(), forum, reply, "week 10"); err != nil {
			t.Fatal(err)
		}
	}
	var parts []string
	for _, m := range srv.Posts() {
		parts = append(parts, m.Content)
		if m.Private() || len(m.Components) > 0 {
			t.Errorf("a post is private or has buttons: %v", m.Raw)
		}
	}
	if len(parts) != 3 || !sameWords(plain(parts...), text) || len(srv.Posts()[2].Files) != 1 {
		t.Errorf("%d parts: %q", len(parts), parts)
	}
}

// Members whom a summary names stand there as mentions, which nobody is pinged by; the
// same words in a tank's name do not.
func TestPostsNameMembers(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c := clientOf(t, srv)
	const wren = "300000000000000021"
	week := commands.ClubWeek{New: []commands.WeekTank{{Member: wren, Tank: "<@" + wren + ">"}}}
	reply := commands.Reply{OK: true, Data: week, Text: week.Text()}
	if err := c.PostReply(t.Context(), forum, reply, "k"); err != nil {
		t.Fatal(err)
	}
	if text := srv.Posts()[0].Content; strings.Count(text, "<@"+wren+">") != 1 || !strings.Contains(text, "of <@"+wren+">") {
		t.Errorf("posted %s", text)
	}
}

// A note goes to the member's own messages, once by its key; a member who is none, and one
// whose messages are closed, get nothing.
func TestDirectReply(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c := clientOf(t, srv)
	const wren, shut = "200000000000000021", "200000000000000022"
	srv.Mute(discordtest.Direct(shut))
	for range 2 {
		if err := c.DirectReply(t.Context(), wren, commands.Reply{OK: true, Text: "Your weekly note"}, "note/1"); err != nil {
			t.Fatal(err)
		}
	}
	for _, member := range []string{shut, "wren"} {
		if err := c.DirectReply(t.Context(), member, commands.Reply{OK: true, Text: "x"}, "note/2"); err == nil {
			t.Errorf("a note to %s is no error", member)
		}
	}
	srv.Fail("create_dm", 403, 1)
	if err := c.DirectReply(t.Context(), wren, commands.Reply{OK: true, Text: "x"}, "note/3"); err == nil || errors.Is(err, ErrNotSent) {
		t.Errorf("a note that the platform refuses ends with %v", err)
	}
	srv.Lose("create_dm", 1) // and is tried again
	if err := c.DirectReply(t.Context(), wren, commands.Reply{OK: true, Text: "Your weekly note"}, "note/1"); err != nil {
		t.Error(err)
	}
	if posts := srv.Posts(); len(posts) != 1 || posts[0].Channel != discordtest.Direct(wren) || posts[0].Content != "Your weekly note" {
		t.Errorf("sent %+v", posts)
	}
}
