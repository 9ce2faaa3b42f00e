//go:build !amd64

package model

const fourWide = false

func first(*lanes)      {}
func second(*lanes)     {}
func firstBare(*lanes)  {}
func secondBare(*lanes) {}
func commit(*lanes)     {}
