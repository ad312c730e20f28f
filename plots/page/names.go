package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"roundmill/plots"
)

// What a log names is data: inside a sentence or a table cell it stands between
// these two characters of the Unicode Bidirectional Algorithm (UAX 9), which
// the templates turn into a bdi element.
const (
	nameBegins = "\u2068" // first strong isolate
	nameEnds   = "\u2069" // pop directional isolate
)

const (
	longestName = 60
	longestNote = 160
	mostMarks   = 3 // combining characters upon one letter
)

// name makes a word from a log fit to stand in text of ours.
func name(word string) string { return isolated(word, longestName) }

// isolated is a word from a log on one line, without characters that steer the
// direction or have no look, no longer than most letters.
func isolated(word string, most int) string {
	var out strings.Builder
	letters, marks, space := 0, 0, false
	for _, r := range strings.ToValidUTF8(word, string(utf8.RuneError)) {
		switch {
		case unicode.IsSpace(r):
			space = out.Len() > 0
			continue
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r):
			continue
		case unicode.Is(unicode.Mn, r):
			if marks++; marks > mostMarks {
				continue
			}
		default:
			if letters++; letters > most {
				return nameBegins + out.String() + "…" + nameEnds
			}
			marks = 0
		}
		if space {
			out.WriteByte(' ')
			space = false
		}
		out.WriteRune(r)
	}
	if out.Len() == 0 {
		return ""
	}
	return nameBegins + out.String() + nameEnds
}

// plain is text without the characters around its names, for attributes.
func plain(text string) string {
	return strings.NewReplacer(nameBegins, "", nameEnds, "").Replace(text)
}

// piece is a piece of text: ours, a name, or the interval in a table cell.
type piece struct {
	Name, Interval bool
	Text           string
}

// pieces cuts text at its names and before an interval, and keeps a number and
// its per cent together.
func pieces(text string) (all []piece) {
	ours := func(text string) {
		value, interval, found := strings.Cut(strings.ReplaceAll(plain(text), " %", plots.NoBreak+"%"), intervalBegins)
		if value != "" {
			all = append(all, piece{Text: value})
		}
		if found {
			all = append(all, piece{Interval: true, Text: interval})
		}
	}
	for text != "" {
		before, rest, found := strings.Cut(text, nameBegins)
		ours(before)
		if !found {
			break
		}
		inside, after, _ := strings.Cut(rest, nameEnds)
		all = append(all, piece{Name: true, Text: inside})
		text = after
	}
	return all
}
