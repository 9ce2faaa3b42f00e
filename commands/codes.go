package commands

import (
	"errors"
	"fmt"

	"ripen/store"
)

// The codes of an Error, for programs. They are part of the command book.
const (
	CodeRange          = "range"           // a number outside its range
	CodeNumber         = "number"          // not a number, or one that reads two ways
	CodeUnit           = "unit"            // a unit that does not fit
	CodeChoice         = "choice"          // not one of the choices
	CodeMissing        = "missing"         // something needed was left out
	CodeUnknownCommand = "unknown-command" // no such command or sub-command
	CodeUnknownOption  = "unknown-option"  // no such option here
	CodeRepeated       = "repeated"        // an option given twice
	CodeSyntax         = "syntax"          // a line that cannot be taken apart
	CodeUnknownTank    = "unknown-tank"    // no tank of that name
	CodeAmbiguous      = "ambiguous"       // more than one tank could be meant
	CodeNameTaken      = "name-taken"      // the member has an open tank of that name
	CodeClosed         = "closed"          // the tank is closed
	CodeTime           = "time"            // before the start, in the future, or no time at all
	CodeRights         = "rights"          // for moderators only
	CodeTooLong        = "too-long"        // more characters than fit
	CodeBadText        = "bad-text"        // control characters or broken UTF-8
	CodeNothing        = "nothing"         // nothing to do
	CodeUnavailable    = "unavailable"     // not plugged in here
	CodeDatabase       = "database"        // the store failed; the cause is in Unwrap
	CodeInternal       = "internal"        // a fault of the program; the cause is in Unwrap
)

// refuse returns an Error about an option ("" if about none).
func refuse(code, option, format string, args ...any) *Error {
	return &Error{Code: code, Option: option, Message: fmt.Sprintf(format, args...)}
}

// asError returns err as an Error, wrapping what has no code as a failure of
// the database, the only thing below the commands that can fail.
func asError(err error) *Error {
	if e, ok := errors.AsType[*Error](err); ok {
		return e
	}
	if errors.Is(err, store.ErrReadOnly) {
		return &Error{Code: CodeDatabase, cause: err,
			Message: "the database cannot be written just now, so nothing was stored; please tell whoever runs this bot"}
	}
	return &Error{
		Code:    CodeDatabase,
		Message: "the database did not answer as it should; nothing was stored. please try again, and tell whoever runs this bot if it stays so",
		cause:   err,
	}
}
