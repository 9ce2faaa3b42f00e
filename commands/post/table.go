package post

type segment struct{ from, to int }

func (r *reader) tables() []segment { return nil }
