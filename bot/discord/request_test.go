package discord

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/bwmarrin/discordgo"
)

// TestAsDelivered reads interactions in the form in which the platform sends
// them.
func TestAsDelivered(t *testing.T) {
	around := `{"id":"1345678901234567890","application_id":"1","type":%d,"token":"t","version":1,"guild_id":"100000000000000001","channel_id":"300000000000000001",
		"member":{"user":{"id":"200000000000000001","username":"wren"},"permissions":"8192","roles":[],"joined_at":"2020-01-01T00:00:00Z"},"data":%s}`
	read := func(kind int, data string) *discordgo.Interaction {
		t.Helper()
		var i discordgo.Interaction
		if err := json.Unmarshal(fmt.Appendf(nil, around, kind, data), &i); err != nil {
			t.Fatal(err)
		}
		return &i
	}
	i := read(2, `{"id":"5","name":"tank","type":1,"options":[{"name":"new","type":1,"options":[
		{"name":"name","type":3,"value":"moss bowl"},{"name":"ph","type":10,"value":7.6},{"name":"salinity","type":10,"value":0}]}]}`)
	r, _ := ofCommand(i.ApplicationCommandData())
	if got, want := typed(r), `tank new name:"moss bowl" ph:7.6 salinity:0`; got != want {
		t.Errorf("a command reads %s, want %s", got, want)
	}
	r, err := fill(r, i)
	if err != nil || r.Member != wren || r.Club != guild || r.Place != forum || !r.Moderator || r.Key != "discord/1345678901234567890" {
		t.Errorf("it is asked as %+v, %v", r, err)
	}
	if want := int64(1420070400000 + 1345678901234567890>>22); r.At.UnixMilli() != want {
		t.Errorf("it is asked at %v", r.At)
	}
	i = read(4, `{"id":"5","name":"outlook","type":1,"options":[{"name":"member","type":6,"value":"200000000000000002"},{"name":"tank","type":3,"value":"mo","focused":true}]}`)
	r, focused := ofCommand(i.ApplicationCommandData())
	if focused != "tank" || typed(r) != "outlook member:200000000000000002 tank:mo" {
		t.Errorf("half typed it reads %s at %s", typed(r), focused)
	}
	i = read(5, `{"custom_id":"form|200000000000000001|reading","components":[{"type":1,"components":[{"type":4,"custom_id":"ammonia","value":"0.5"}]},
		{"type":1,"components":[{"type":4,"custom_id":"nitrite","value":""}]}]}`)
	if got := fields(i.ModalSubmitData().Components); len(got) != 1 || got["ammonia"] != "0.5" {
		t.Errorf("a form reads %v", got)
	}
}

func TestFillNeedsATime(t *testing.T) {
	d := newDesk(t)
	i := d.slash("2026-03-01T09:00:00Z", wren, tankNano)
	i.ID = "not an id"
	if all := d.do(i); len(all) != 1 || d.entries(wren) != 0 {
		t.Errorf("sent %+v, holds %d entries", all, d.entries(wren))
	}
}
