package commands

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// importing sends a file with /data import.
func importing(t *testing.T, b *Book, member, at string, data []byte) Reply {
	t.Helper()
	return b.Do(t.Context(), Request{At: clock(at), Club: "club", Member: member, Command: "data", Sub: "import",
		Options: map[string]string{"file": "x.json"}, Files: []File{{Name: "x.json", Data: data}}})
}

// exported is the file of a member's export, but for when it was written.
func exported(t *testing.T, b *Book, at string) []byte {
	t.Helper()
	data := must(t, b, at, "/data export").Files[0].Data
	var x Exported
	if err := json.Unmarshal(data, &x); err != nil {
		t.Fatal(err)
	}
	x.Written = clock("2026-01-01T00:00:00Z")
	data, err := json.Marshal(x)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// filled is a book with all sorts of things told by wren.
func filled(t *testing.T) *Book {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T08:00:00Z", "/units volume:gal temp:F")
	must(t, b, "2026-03-02T09:00:00Z", "/tank new name:nano volume:15 temp:77 share:yes")
	must(t, b, "2026-03-03T09:00:00Z", "/reading ammonia:2 nitrite:5+")
	must(t, b, "2026-03-03T09:00:00Z", "/reading ammonia:2 nitrite:5+") // alike to the letter
	must(t, b, "2026-03-03T09:00:01Z", "!add day 2: nitrate 20-40")
	must(t, b, "2026-03-04T09:00:00Z", `/log what:water-change amount:40% detail:"cloudy 🐟"`)
	must(t, b, "2026-03-05T09:00:00Z", "/tank edit temp:80 at:yesterday")
	must(t, b, "2026-03-05T10:00:00Z", "/tank edit name:cube started:2026-03-01 share:no")
	must(t, b, "2026-03-06T09:00:00Z", "/tank new name:old volume:20L")
	must(t, b, "2026-03-09T09:00:00Z", "/tank close tank:old reason:moved")
	must(t, b, "2026-03-09T09:30:00Z", "/outlook")
	return b
}

// What was exported comes back as it was, once, in another club's database too.
func TestImportBringsAllBack(t *testing.T) {
	b := filled(t)
	want := exported(t, b, "2026-03-10T09:00:00Z")
	must(t, b, "2026-03-10T10:00:00Z", "/data erase confirm:yes")
	for k, say := range []string{"2 new tanks and 9 entries", "nothing was added"} {
		reply := importing(t, b, "wren", "2026-03-10T11:00:00Z", want)
		checkReply(t, "import", reply)
		if !reply.OK || !strings.Contains(reply.Text, say) {
			t.Fatalf("time %d: %s", k+1, reply.Text)
		}
		var x Exported
		if err := json.Unmarshal(want, &x); err != nil {
			t.Fatal(err)
		}
		for i := range x.Tanks {
			x.Tanks[i].Outlooks = nil // were given here, and are not taken in
		}
		bare, _ := json.Marshal(x)
		if got := exported(t, b, "2026-03-10T12:00:00Z"); !bytes.Equal(got, bare) {
			t.Fatalf("time %d: it came back as\n%s\nwant\n%s", k+1, got, bare)
		}
	}
	// What was told since is told on: the same tank, with one entry more.
	must(t, b, "2026-03-11T09:00:00Z", "/reading ammonia:1")
	more := exported(t, b, "2026-03-12T09:00:00Z")
	must(t, b, "2026-03-12T10:00:00Z", "/undo")
	if reply := importing(t, b, "wren", "2026-03-12T11:00:00Z", more); !reply.OK || !strings.Contains(reply.Text, "1 entry") {
		t.Errorf("a longer file: %s", reply.Text)
	}
	if reply := importing(t, b, "tern", "2026-03-12T11:00:00Z", want); !reply.OK || !strings.Contains(reply.Text, "2 new tanks") {
		t.Errorf("another member's: %s", reply.Text)
	}
}

// What was taken in last is taken back first, and may be taken in again after.
func TestImportIsTakenBackAndTakenIn(t *testing.T) {
	file := exported(t, filled(t), "2026-03-10T09:00:00Z")
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-09T09:00:00Z", "/tank new name:own volume:15L") // told after most of the file was
	importing(t, b, "wren", "2026-03-10T11:00:00Z", file)
	for range 9 {
		must(t, b, "2026-03-10T12:00:00Z", "/undo")
	}
	if text := must(t, b, "2026-03-10T12:00:00Z", "/tank list").Text; !strings.Contains(text, "own") || strings.Contains(text, "cube") {
		t.Errorf("left is %s", text)
	}
	if reply := importing(t, b, "wren", "2026-03-10T13:00:00Z", file); !strings.Contains(reply.Text, "2 new tanks and 9 entries") {
		t.Errorf("again: %s", reply.Text)
	}
	if reply := importing(t, b, "wren", "2026-03-10T13:00:00Z", file); !strings.Contains(reply.Text, "nothing was added") {
		t.Errorf("while it stands: %s", reply.Text)
	}
}

// What was corrected since the first file holds with the second: name, start, and what was
// told of the days before.
func TestImportTakesCorrections(t *testing.T) {
	there, here := New(newStore(t), WithAdviser(fakeAdviser{})), New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, there, "2026-03-02T09:00:00Z", "/tank new name:nano volume:15L")
	must(t, there, "2026-03-03T09:00:00Z", "/reading ammonia:2 nitrite:5+")
	first := exported(t, there, "2026-03-04T09:00:00Z")
	must(t, there, "2026-03-05T10:00:00Z", "/tank edit name:cube started:2026-02-20")
	must(t, there, "2026-03-05T11:00:00Z", "/reading ammonia:1 at:2026-02-25")
	second := exported(t, there, "2026-03-06T09:00:00Z")
	for _, file := range [][]byte{first, second, first, second} {
		if reply := importing(t, here, "wren", "2026-03-07T11:00:00Z", file); !reply.OK {
			t.Fatal(reply.Text)
		}
	}
	want := must(t, there, "2026-03-07T12:00:00Z", "/tank show").Text
	if got := must(t, here, "2026-03-07T12:00:00Z", "/tank show").Text; got != want {
		t.Errorf("it came as\n%s\nwant\n%s", got, want)
	}
	// Its own file is not taken in a second time, though the tank was called otherwise then.
	if reply := importing(t, there, "wren", "2026-03-07T13:00:00Z", first); reply.OK || reply.Err.Code != CodeNameTaken || !strings.Contains(reply.Text, `is your tank "cube"`) {
		t.Errorf("over what was told here: %s", reply.Text)
	}
	// A tank of the same name and start that was told anew is another.
	must(t, here, "2026-03-07T14:00:00Z", "/tank close tank:cube")
	must(t, here, "2026-03-07T15:00:00Z", "/tank new name:cube volume:15L started:2026-02-20")
	if reply := importing(t, here, "wren", "2026-03-07T16:00:00Z", second); !reply.OK || !strings.Contains(reply.Text, "nothing was added") {
		t.Errorf("beside another of the name: %s", reply.Text)
	}
}

// The units of a file are for who has none; who said some keeps them, and is told so.
func TestImportKeepsUnits(t *testing.T) {
	file := exported(t, filled(t), "2026-03-10T09:00:00Z") // in US gallons
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	take := func(says, kept string) {
		t.Helper()
		reply := importing(t, b, "wren", "2026-03-10T11:00:00Z", file)
		if told := strings.Contains(reply.Text, "stay as they are"); !strings.Contains(reply.Text, says) || told != (kept == "L") {
			t.Errorf("it says %s", reply.Text)
		}
		if u := must(t, b, "2026-03-10T11:30:00Z", "/units").Data.(UnitsSet); u.Volume != kept {
			t.Errorf("the unit of volume is %s, want %s", u.Volume, kept)
		}
	}
	take("9 entries, and your units.", "gal")
	take("nothing was added", "gal")
	must(t, b, "2026-03-10T12:00:00Z", "/units volume:L")
	take("nothing was added", "L")
	must(t, b, "2026-03-10T12:00:00Z", "/units volume:gal temp:F")
	take("nothing was added", "gal")
}

// What can't be taken in changes nothing, and says why.
func TestImportRefuses(t *testing.T) {
	good := exported(t, filled(t), "2026-03-10T09:00:00Z")
	swap := func(old, with string) []byte {
		if !bytes.Contains(good, []byte(old)) {
			t.Fatalf("the export has no %s", old)
		}
		return bytes.Replace(good, []byte(old), []byte(with), 1)
	}
	for _, tt := range []struct {
		reason string
		data   []byte
		code   string
		says   string
	}{
		{"no JSON", []byte("ammonia,nitrite\n1,2"), CodeSyntax, "is no export of this program"},
		{"cut off", good[:len(good)/2], CodeSyntax, "is no export"},
		{"of another program", []byte(`{"format":"tanks-7","tanks":[{}]}`), CodeSyntax, exportFormat},
		{"empty", []byte(`{"format":"` + exportFormat + `"}`), CodeMissing, "holds no tank"},
		{"too big", make([]byte, MaxFile+1), CodeTooLong, "at most 4194304"},
		{"units unknown", swap(`"gal"`, `"bucket"`), CodeChoice, `"bucket"`},
		{"a value out of range", swap(`"typed":"77"`, `"typed":"700"`), CodeSyntax, "temp"},
		{"a value that is no option", swap(`{"name":"temp","typed":"77"`, `{"name":"x","typed":"77"`), CodeSyntax, `"x"`},
		{"a kind unknown", swap(`"kind":"log"`, `"kind":"poem"`), CodeSyntax, `"poem"`},
		{"two set-ups", swap(`"kind":"edit"`, `"kind":"setup"`), CodeSyntax, "several"},
		{"of tomorrow", swap(`"at":"2026-03-03`, `"at":"2027-03-03`), CodeSyntax, "a time that can't be"},
		{"closed tomorrow", swap(`"closed":"2026-03-09`, `"closed":"2031-03-09`), CodeSyntax, "closed at a time that can't be"},
		{"closed before the start", swap(`"closed":"2026-03-09`, `"closed":"2026-02-09`), CodeSyntax, "closed at a time that can't be"},
		{"a name with a control character", swap(`"name":"cube"`, `"name":"cu\u0007be"`), CodeBadText, ""},
	} {
		st := newStore(t)
		b := New(st, WithAdviser(fakeAdviser{}))
		before := dump(t, st, "wren")
		reply := importing(t, b, "wren", "2026-03-10T11:00:00Z", tt.data)
		checkReply(t, tt.reason, reply)
		if reply.OK || reply.Err.Code != tt.code && tt.says != "" || !strings.Contains(reply.Text, tt.says) || dump(t, st, "wren") != before {
			t.Errorf("%s: %+v", tt.reason, reply)
		}
	}
	b := filled(t)
	if reply := importing(t, b, "wren", "2026-03-10T11:00:00Z", good); reply.OK || reply.Err.Code != CodeNameTaken {
		t.Errorf("over what was told here: %s", reply.Text)
	}
	if reply := tell(t, b, "2026-03-10T11:00:00Z", "/data import file:x.json"); reply.OK || reply.Err.Code != CodeMissing {
		t.Errorf("without a file: %s", reply.Text)
	}
}

// A damaged file is refused in words, or taken in; it never fails inside, and a refused
// one changes nothing.
func TestImportDamaged(t *testing.T) {
	good := exported(t, filled(t), "2026-03-10T09:00:00Z")
	words := []string{"null", "-1", `""`, `"5+"`, "{}", "[]", `"2026-02-30"`, "1e999", `"closed"`, `"setup"`, `"at"`}
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}))
	rapid.Check(t, func(rt *rapid.T) {
		data := bytes.Clone(good)
		for range rapid.IntRange(1, 4).Draw(rt, "times") {
			at := rapid.IntRange(0, len(data)-1).Draw(rt, "at")
			if rapid.Bool().Draw(rt, "byte") {
				data[at] = rapid.Byte().Draw(rt, "to")
				continue
			}
			parts := bytes.SplitAfter(data, []byte(":"))
			k := rapid.IntRange(1, len(parts)-1).Draw(rt, "value")
			if end := bytes.IndexAny(parts[k], ",}]"); end > 0 {
				parts[k] = append([]byte(rapid.SampledFrom(words).Draw(rt, "word")), parts[k][end:]...)
			}
			data = bytes.Join(parts, nil)
		}
		before := dump(t, st, "wren")
		reply := importing(t, b, "wren", "2026-03-10T11:00:00Z", data)
		if reply.Err != nil && (reply.Err.Code == CodeInternal || reply.Err.Code == CodeDatabase) {
			rt.Fatalf("%v", reply.Err.Unwrap())
		}
		if !reply.OK && dump(t, st, "wren") != before {
			rt.Fatalf("refused with %s, and changed", reply.Text)
		}
		for _, line := range []string{"/tank list", "/data export"} {
			if r := tell(t, b, "2026-03-10T12:00:00Z", line); !r.OK {
				rt.Fatalf("%s afterwards: %s", line, r.Text)
			}
		}
		must(t, b, "2026-03-10T13:00:00Z", "/data erase confirm:yes")
	})
}
