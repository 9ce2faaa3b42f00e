package storetest

import (
	"testing"

	"ripen/store"
)

func TestModelKeepsTheContract(t *testing.T) {
	Run(t, func(*testing.T) store.Store { return newMemory() })
}
