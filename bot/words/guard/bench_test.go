package guard

import (
	"testing"

	"ripen/bot/words/guard/guardtest"
)

// A verdict has to be there long before anybody waits for it.
func BenchmarkCheck(b *testing.B) {
	all := guardtest.Faithful(guardtest.Held)
	for i := 0; b.Loop(); i++ {
		a := all[i%len(all)]
		_ = Check(draftOf(a.Draft), a.Text)
	}
}
