//go:build !amd64

package model

func available() []*instructions { return nil }
