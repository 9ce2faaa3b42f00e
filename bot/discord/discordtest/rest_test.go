package discordtest

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
)

// What a bot does wrong in the course of an interaction fails the test; what a
// test brought about does not.
func TestInteractionRules(t *testing.T) {
	w := &witness{T: t}
	s := New(w)
	now := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	s.Now = func() time.Time { return now }
	c := client(t, s)
	got := make(chan *discordgo.Interaction, 1)
	answering(c, func(i *discordgo.Interaction) { got <- i })
	open(t, s, c)
	code := func(err error, want int) {
		t.Helper()
		var e *discordgo.RESTError
		if want == 0 && err != nil || want != 0 && (!errors.As(err, &e) || e.Message == nil || e.Message.Code != want) {
			t.Errorf("answered %v, want code %d", err, want)
		}
	}
	deferral := &discordgo.InteractionResponse{Type: discordgo.InteractionResponseDeferredChannelMessageWithSource}
	words := "words"
	edit := func(i *discordgo.Interaction) error {
		_, err := c.InteractionResponseEdit(i, &discordgo.WebhookEdit{Content: &words})
		return err
	}

	sent := s.Slash(wren, "help", "")
	i := <-got
	code(edit(i), 10015)
	w.says("not acknowledged yet")
	code(c.InteractionRespond(i, deferral), 0)
	code(c.InteractionRespond(i, deferral), 40060)
	w.says("40060")
	sent.Again()
	<-got
	code(c.InteractionRespond(i, deferral), 40060) // delivered twice, so no fault
	now = now.Add(14 * time.Minute)
	code(edit(i), 0)
	now = now.Add(2 * time.Minute)
	code(edit(i), 50027)
	w.says("50027")

	s.Slash(wren, "help", "")
	i = <-got
	now = now.Add(3100 * time.Millisecond)
	code(c.InteractionRespond(i, deferral), 10062)
	w.says("answered after 3.1s")

	sent = s.Slash(wren, "help", "")
	sent.Expire()
	code(c.InteractionRespond(<-got, deferral), 10062) // the test's doing, so no fault

	code(c.InteractionRespond(&discordgo.Interaction{ID: "1", Token: "x"}, deferral), 10062)
	w.says("10062")

	s.Slash(wren, "help", "")
	code(c.InteractionRespond(<-got, &discordgo.InteractionResponse{Type: discordgo.InteractionResponseDeferredMessageUpdate}), 50035)
	w.says("without a message")
	s.Autocomplete(wren, "help", "", Option{Name: "a", Value: "b", Focused: true})
	code(c.InteractionRespond(<-got, text("x")), 50035)
	w.says("to an interaction of type 4")
	if _, err := c.ChannelMessageSend("300000000000000001", ""); err == nil {
		t.Error("an empty message was taken")
	}
	w.says("empty message")
	c.UserAgent = "curl"
	if _, err := c.User("@me"); err == nil {
		t.Error("a user agent of another form was taken")
	}
	w.says("user agent")
	if _, err := c.Request("GET", discordgo.EndpointAPI+"nowhere", nil); err == nil {
		t.Error("a route that is not was found")
	}
	w.says("nowhere")
	w.mu.Lock()
	defer w.mu.Unlock()
	if len(w.wrong) > 0 {
		t.Errorf("faults %q are left", w.wrong)
	}
}

// Trouble of the network and the platform, as the library sees it.
func TestRESTTrouble(t *testing.T) {
	s := New(t)
	c := client(t, s)
	ask := func() error { _, err := c.User("@me"); return err }
	var limited *discordgo.RateLimitError
	var refused *discordgo.RESTError

	s.Fail("get_my_user", 503, 1)
	if err := ask(); !errors.As(err, &refused) || refused.Response.StatusCode != 503 {
		t.Errorf("503 is seen as %v", err)
	}
	s.Fail("get_my_user", 502, 2)
	if err := ask(); err != nil {
		t.Errorf("502 twice is seen as %v", err)
	}
	s.Fail("create_message", 500, 1) // another route
	if err := ask(); err != nil {
		t.Errorf("trouble of another route is seen as %v", err)
	}
	for _, global := range []bool{false, true} {
		s.Limit("", 20*time.Millisecond, global, 1)
		if err := ask(); !errors.As(err, &limited) || limited.RetryAfter != 20*time.Millisecond {
			t.Errorf("429 (global: %v) is seen as %v", global, err)
		}
	}
	s.LimitPlain("", time.Second, 1)
	if err := ask(); err == nil {
		t.Error("a 429 that is not JSON was not seen")
	}
	s.Slow("get_my_user", time.Minute, 1)
	ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond)
	defer cancel()
	if _, err := c.User("@me", discordgo.WithContext(ctx)); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("a slow answer is seen as %v", err)
	}
	post := func() error {
		_, err := c.Request("POST", discordgo.EndpointChannelMessages("300000000000000001"), map[string]any{"content": "once", "nonce": "n1", "enforce_nonce": true})
		return err
	}
	if err := post(); err == nil {
		t.Error("500 was not seen")
	}
	s.Lose("create_message", 1)
	if err := post(); err == nil {
		t.Error("a lost answer was not seen")
	}
	if err := post(); err != nil || len(s.Posts()) != 1 {
		t.Errorf("%d posts, %v, want the one that was done without an answer", len(s.Posts()), err)
	}
	c.Token = "Bot wrong"
	if err := ask(); err == nil {
		t.Error("a wrong token was taken")
	}
}
