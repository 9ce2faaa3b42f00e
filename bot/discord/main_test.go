package discord

import (
	"flag"
	"os"
	"testing"
)

// TestMain lets more tests run at once than there are processors: the library
// sleeps for a second with each connection that ends.
func TestMain(m *testing.M) {
	flag.Parse()
	flag.VisitAll(func(f *flag.Flag) {
		if f.Name == "test.parallel" && f.Value.String() == f.DefValue {
			_ = f.Value.Set("12")
		}
	})
	os.Exit(m.Run())
}
