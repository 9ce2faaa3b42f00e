// Package discord serves clubs on Discord: the same commands as everywhere else,
// as slash commands, forms, buttons and menus.
//
// A Client speaks with the platform and has the work-arounds for its library; the
// flow turns interactions into requests of the command book, and replies into
// messages. What a button needs to know stands in its custom id or in the store,
// so that a restart loses nothing.
package discord

import "github.com/bwmarrin/discordgo"

// Message is what is sent, as an answer or as a post. Nobody is mentioned by
// it, whatever its text says.
type Message struct {
	Content    string
	Embeds     []*discordgo.MessageEmbed
	Components []discordgo.MessageComponent
	Files      []File
	Private    bool // only the asker sees it; decided by the first answer
}

// File is an attachment. Alt says in words what a picture shows.
type File struct {
	Name, Type, Alt string
	Data            []byte
}

// Response is the first answer to an interaction. Which of its fields count
// depends on Type.
type Response struct {
	Type    discordgo.InteractionResponseType
	Message *Message                                    // of types 4, 5, 6 and 7; of 5 only Private counts
	Choices []*discordgo.ApplicationCommandOptionChoice // of type 8
	Modal   *Modal                                      // of type 9
}

// Modal is a form. It can be the first answer only, and not to another form.
type Modal struct {
	ID, Title  string
	Components []discordgo.MessageComponent
}
