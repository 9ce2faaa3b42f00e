package model

import "golang.org/x/sys/cpu"

var (
	avx    = instructions{4, first4, firstBare4, second4, secondBare4, commit4}
	avx512 = instructions{8, first8, firstBare8, second8, secondBare8, commit8}
)

// available are the instructions that the machine has, the widest first.
func available() (all []*instructions) {
	if cpu.X86.HasAVX512F && cpu.X86.HasAVX512DQ {
		all = append(all, &avx512)
	}
	if cpu.X86.HasAVX {
		all = append(all, &avx)
	}
	return all
}

//go:noescape
func first4(l *lanes) uint64

//go:noescape
func second4(l *lanes) uint64

//go:noescape
func firstBare4(l *lanes) uint64

//go:noescape
func secondBare4(l *lanes) uint64

//go:noescape
func commit4(l *lanes)

//go:noescape
func first8(l *lanes) uint64

//go:noescape
func second8(l *lanes) uint64

//go:noescape
func firstBare8(l *lanes) uint64

//go:noescape
func secondBare8(l *lanes) uint64

//go:noescape
func commit8(l *lanes)
