package main

import (
	"io"
	"log/slog"

	"ripen/bot/words"
	"ripen/commands"
)

// LLMConfig is the part of a configuration file that names a language model.
type LLMConfig struct {
	URL       string    `json:"url"`
	Model     string    `json:"model"`
	Key       words.Key `json:"key"`
	Stream    bool      `json:"stream"`
	MemberDay int       `json:"member_day"`
	ClubDay   int       `json:"club_day"`
}

// model returns how to reach the language model: by the environment, and what is not
// there by the file.
func (c LLMConfig) model(m Machine) (words.Config, error) {
	w := words.Config{URL: c.URL, Model: c.Model, Key: c.Key, Stream: c.Stream, MemberDay: c.MemberDay, ClubDay: c.ClubDay}
	if s := m.Getenv("RIPEN_LLM_URL"); s != "" {
		w.URL = s
	}
	if s := m.Getenv("RIPEN_LLM_MODEL"); s != "" {
		w.Model = s
	}
	if s := m.Getenv("RIPEN_LLM_KEY"); s != "" {
		w.Key = words.Key(s)
	}
	return w, w.Check()
}

// phrased is what opens a book whose replies a model may phrase, and the stage that does
// it; both do nothing when no model is named.
func (c LLMConfig) phrased(m Machine, log io.Writer) (*words.Stage, []commands.Setting, error) {
	w, err := c.model(m)
	if err != nil || w.URL == "" {
		return nil, nil, err
	}
	stage, err := words.New(w, slog.New(slog.NewTextHandler(log, nil)))
	return stage, []commands.Setting{commands.WithWords(w.Model)}, err
}
