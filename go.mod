module ripen

go 1.26.8

require (
	github.com/alecthomas/kong v1.17.0 // indirect
	github.com/clipperhouse/uax29/v2 v2.7.0 // indirect
	github.com/mattn/go-runewidth v0.0.31 // indirect
	github.com/peterh/liner v1.2.3 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/term v0.48.0 // indirect
)
