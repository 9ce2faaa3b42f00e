package discordtest

import "time"

// Callback is the first answer to an interaction.
type Callback struct {
	Type  int
	Data  Message
	After time.Duration // since the interaction was sent
}

// Callback waits for the first answer.
func (i *Interaction) Callback() *Callback {
	i.s.t.Helper()
	var c *Callback
	i.s.wait("an answer to "+compact(i.event["data"]), func() bool {
		c = i.callback
		return c != nil
	})
	return c
}

// Message waits for the message that answers: that of the first answer, or the
// first edit after a deferral. It is the message's state at that time.
func (i *Interaction) Message() *Message {
	i.s.t.Helper()
	c := i.Callback()
	if c == nil {
		return nil
	}
	if c.Type == 4 || c.Type == 7 {
		return &c.Data
	}
	return i.Edit(0)
}

// Edit waits for an edit of the first answer, the first of which is 0.
func (i *Interaction) Edit(n int) *Message {
	i.s.t.Helper()
	var m *Message
	i.s.wait("an edit of the answer to "+compact(i.event["data"]), func() bool {
		if len(i.edits) > n {
			m = i.edits[n]
		}
		return m != nil
	})
	return m
}

// Followup waits for a further message, the first of which is 0.
func (i *Interaction) Followup(n int) *Message {
	i.s.t.Helper()
	var m *Message
	i.s.wait("a further message to "+compact(i.event["data"]), func() bool {
		if len(i.followups) > n {
			m = i.followups[n]
		}
		return m != nil
	})
	return m
}

// Choices waits for the proposals to what is being typed.
func (i *Interaction) Choices() []Choice {
	i.s.t.Helper()
	if c := i.Callback(); c != nil {
		return c.Data.Choices
	}
	return nil
}

// Counts are how many edits and further messages there are so far, and whether
// there was a first answer.
func (i *Interaction) Counts() (answered bool, edits, followups int) {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	return i.callback != nil, len(i.edits), len(i.followups)
}
