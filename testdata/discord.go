package testdata

import _ "embed"

// DiscordAPI is the platform's own description of the part of its HTTP interface
// that the bot uses; discord/NOTICE says where it is from.
//
//go:embed discord/openapi-subset.json
var DiscordAPI []byte
