package ingest

import (
	"bufio"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// A Category is one of the lies that a published baseline knows, or where the
// ball is once it is holed. The zero Category is none.
type Category uint8

const (
	NoCategory Category = iota
	Tee
	Fairway
	Rough
	Sand
	Recovery
	Green
	Holed
	// OutOfPlay is where a penalised ball finished when the log names it
	// ("water"); play resumes elsewhere.
	OutOfPlay
	CategoryCount
)

var categoryNames = [CategoryCount]string{"", "tee", "fairway", "rough", "sand", "recovery", "green", "holed", "out of play"}

func (c Category) String() string { return categoryNames[c] }

// CategoryNamed finds one of the six lie categories by its name, or NoCategory.
func CategoryNamed(name string) Category {
	for c := Tee; c <= Green; c++ {
		if categoryNames[c] == name {
			return c
		}
	}
	return NoCategory
}

// Lies says which category a lie word belongs to. Words are in plain form.
type Lies map[string]Category

// DefaultLies is the table of lie words that needs no --lies file.
func DefaultLies() Lies {
	lies := Lies{}
	for category, words := range map[Category]string{
		Tee:      "tee, tee box",
		Fairway:  "fairway, fringe, apron, collar",
		Rough:    "rough, first cut, semi rough, light rough, deep rough, bermuda, native, fescue, hardpan, pine straw, drop zone",
		Sand:     "bunker, sand, greenside bunker, fairway bunker, plugged, waste bunker",
		Recovery: "recovery, trees, woods, blocked, penalty area",
		Green:    "green, putting surface",
	} {
		for word := range strings.SplitSeq(words, ", ") {
			lies[word] = category
		}
	}
	return lies
}

// ReadLies adds the lines of a --lies file (`word = category`, # comments) to
// the table. An error names the line.
func (l Lies) ReadLies(name string, r io.Reader) error {
	lines := bufio.NewScanner(r)
	for number := 1; lines.Scan(); number++ {
		word, category, found, err := assignment(lines.Bytes())
		if err == nil && found {
			err = l.add(word, category)
		}
		if err != nil {
			return fmt.Errorf("%s:%d: %w", name, number, err)
		}
	}
	if err := lines.Err(); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

func (l Lies) add(word, category string) error {
	named := CategoryNamed(plainForm(category))
	if named == NoCategory {
		return fmt.Errorf("%q is no lie category: expected tee, fairway, rough, sand, recovery or green", category)
	}
	plain, _ := l.word(word) // "bunkers" moves the bunker of the table
	if plain == "" {
		return fmt.Errorf("%q has no letters to tell a lie by", word)
	}
	l[plain] = named
	return nil
}

// assignment reads one `left = right` line of a mapping file; found is false
// for a blank line or a comment.
func assignment(text []byte) (left, right string, found bool, err error) {
	line := strings.TrimSpace(strings.TrimPrefix(validText(text), "\ufeff"))
	if line == "" || strings.HasPrefix(line, "#") {
		return "", "", false, nil
	}
	left, right, found = strings.Cut(line, "=")
	left, right = strings.TrimSpace(left), strings.TrimSpace(right)
	if !found || left == "" || right == "" {
		return "", "", false, fmt.Errorf("%q: expected a line `left = right`", line)
	}
	return left, right, true, nil
}

// word finds the table's spelling of a lie as written: case, separators and a
// plural s do not matter. A word that no table knows comes back in plain form.
func (l Lies) word(text string) (string, bool) {
	plain := plainForm(text)
	parts := strings.Fields(plain)
	for i, part := range parts {
		parts[i] = strings.TrimSuffix(part, "s")
	}
	for _, spelling := range [...]string{plain, strings.Join(parts, " "), plain + "s"} {
		if _, known := l[spelling]; known {
			return spelling, true
		}
	}
	return plain, false
}

// Spelling is a lie as written in the table's spelling, in plain form where no table
// knows it.
func (l Lies) Spelling(text string) string {
	word, _ := l.word(text)
	return word
}

func (l Lies) words() []string { return slices.Sorted(maps.Keys(l)) }

// finishWords are what a log may write for where a stroke ended, beside the
// lies: in the hole, or out of play after a penalty.
var finishWords = map[string]Category{
	"holed": Holed, "hole": Holed, "in the hole": Holed, "in hole": Holed, "cup": Holed,
	"out of bounds": OutOfPlay, "ob": OutOfPlay, "oob": OutOfPlay, "lost": OutOfPlay, "lost ball": OutOfPlay,
	"water": OutOfPlay, "hazard": OutOfPlay, "water hazard": OutOfPlay, "unplayable": OutOfPlay,
}

// Category is the category of a lie as written, NoCategory for a word that no
// table knows.
func (l Lies) Category(text string) Category {
	word, _ := l.word(text)
	return l[word]
}

// FinishCategory is the same of where a stroke finished, which may be a word
// such as holed, unless the table has it.
func (l Lies) FinishCategory(text string) Category {
	if word, known := l.word(text); known {
		return l[word]
	}
	return finishWords[plainForm(text)]
}
