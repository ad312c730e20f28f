package ingest

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// A manner is how records were read, as far as they themselves show it.
type manner struct {
	skipped map[noShot]skippedLines
	ways    map[way]example
	lies    map[string]Category // words that are not the name of their category
	names   map[string]meaning  // keys of JSON objects
	cards   int                 // records of scorecards
}

type skippedLines struct{ count, first int }

// A way is something that was understood and could have been written plainer.
type way string

const (
	decimalComma   way = "decimal commas"
	thousandsMark  way = "thousands marks taken out"
	unitInCell     way = "numbers in the unit that stands in the cell"
	feetAndInches  way = "feet and inches"
	compassLetter  way = "compass letters as signs"
	monthByName    way = "months by name"
	quoteTakenOff  way = "the quote that guards against formulas taken off"
	foreignText    way = "what is not UTF-8 read as Windows-1252"
	nestedPosition way = "positions as longitude, latitude"
)

// example is where a way was first met.
type example struct {
	text string
	line int
}

func (m *manner) skip(why noShot, line int) {
	if m.skipped == nil {
		m.skipped = map[noShot]skippedLines{}
	}
	lines := m.skipped[why]
	if lines.count++; lines.count == 1 {
		lines.first = line
	}
	m.skipped[why] = lines
}

func (m *manner) meet(w way, text []byte, line int) {
	if _, met := m.ways[w]; met {
		return
	}
	if m.ways == nil {
		m.ways = map[way]example{}
	}
	m.ways[w] = example{shown(validText(text)), line}
}

// learnLies adds the lie words of parsed records.
func (m *manner) learnLies(r *rows, lies Lies) {
	m.lies = map[string]Category{}
	for _, word := range r.texts[lie].list {
		if category := lies.Category(word); category != NoCategory && plainForm(word) != category.String() {
			m.lies[plainForm(word)] = category
		}
	}
}

// namesUsed adds what a file's names are to what all of them use of a mapping.
func (u *mappedUse) namesUsed(f *file, seen *manner, unused map[string]bool) {
	names, meanings := f.named(seen)
	for i, m := range meanings {
		switch {
		case m.mapped != nil:
			u.met[*m.mapped] = true
		case m.field == noField && names[i] != "":
			u.unused = append(u.unused, names[i])
		}
	}
	u.unused = append(u.unused, sortedKeys(unused)...)
}

// add takes over what later records show.
func (m *manner) add(later manner) {
	for why, lines := range later.skipped {
		if m.skipped == nil {
			m.skipped = map[noShot]skippedLines{}
		}
		earlier := m.skipped[why]
		if earlier.count == 0 {
			earlier.first = lines.first
		}
		earlier.count += lines.count
		m.skipped[why] = earlier
	}
	m.cards += later.cards
	for w, e := range later.ways {
		m.meet(w, []byte(e.text), e.line)
	}
	if m.lies == nil {
		m.lies, m.names = map[string]Category{}, map[string]meaning{}
	}
	maps.Copy(m.lies, later.lies)
	maps.Copy(m.names, later.names)
}

// notes are the lines that were taken for no shots.
func (m *manner) notes() (notes []string) {
	for _, why := range []noShot{totalLine, headerAgain, commentLine, reasonOnly} {
		if lines := m.skipped[why]; lines.count == 1 {
			notes = append(notes, fmt.Sprintf("1 %s skipped, line %d", why, lines.first))
		} else if lines.count > 1 {
			several := string(why) + "s"
			if why == reasonOnly {
				several = "rejects without their records"
			}
			notes = append(notes, fmt.Sprintf("%d %s skipped, the first on line %d", lines.count, several, lines.first))
		}
	}
	return notes
}

// readAs says line by line how the file was read.
func (f *file) readAs(seen *manner) (lines []string) {
	if f.form == "" {
		return nil
	}
	lines = append(lines, f.form)
	if names := f.namesReadAs(seen); len(names) > 0 {
		lines = append(lines, "columns: "+strings.Join(names, ", "))
	}
	if distances := f.distancesReadAs(seen); distances != "" {
		lines = append(lines, distances)
	}
	switch {
	case seen.cards == 1:
		lines = append(lines, "1 record with a score and no stroke, read as a scorecard: it counts for scores and handicap only")
	case seen.cards > 1:
		lines = append(lines, fmt.Sprintf("%d records with a score and no stroke, read as scorecards: they count for scores and handicap only", seen.cards))
	}
	for _, w := range slices.Sorted(maps.Keys(seen.ways)) {
		e := seen.ways[w]
		lines = append(lines, fmt.Sprintf("%s, such as %s on line %d", w, e.text, e.line))
	}
	var words []string
	for _, word := range slices.Sorted(maps.Keys(seen.lies)) {
		words = append(words, fmt.Sprintf("%s as %s", word, seen.lies[word]))
	}
	if len(words) > 0 {
		lines = append(lines, "lies: "+strings.Join(words, ", "))
	}
	return lines
}

// named is every name in the file that means a field, in order of columns or
// of the alphabet.
func (f *file) named(seen *manner) (names []string, meanings []meaning) {
	if f.names != nil {
		return f.names, f.meanings
	}
	for _, name := range slices.Sorted(maps.Keys(seen.names)) {
		names, meanings = append(names, name), append(meanings, seen.names[name])
	}
	return names, meanings
}

// namesReadAs lists the names that are not those of the shot log.
func (f *file) namesReadAs(seen *manner) (said []string) {
	names, meanings := f.named(seen)
	for i, m := range meanings {
		if m.field == noField {
			continue
		}
		text := fmt.Sprintf("%q as %s", strings.Join(strings.Fields(names[i]), " "), m.field)
		if m.unit != NoUnit {
			text += " in " + m.unit.String()
		}
		if m.order != unsettled {
			text += ", " + m.order.String()
		}
		if m.unit != NoUnit || m.order != unsettled || normalForm(names[i]) != normalForm(m.field.String()) {
			said = append(said, text)
		}
	}
	return said
}

// distancesReadAs says in which unit the distances are that name none.
func (f *file) distancesReadAs(seen *manner) string {
	var plain, onLie []string
	_, meanings := f.named(seen)
	for at := range fieldCount {
		if definitions[at].kind != distance || !slices.ContainsFunc(meanings, func(m meaning) bool { return m.field == at && m.unit == NoUnit }) {
			continue
		}
		if at == toHole || at == left {
			onLie = append(onLie, at.String())
		} else if at != puttLength {
			plain = append(plain, at.String())
		}
	}
	var said []string
	if len(onLie) > 0 {
		said = append(said, listed(onLie)+" in yards, on the green in "+f.puttUnit)
	}
	if slices.ContainsFunc(meanings, func(m meaning) bool { return m.field == puttLength && m.unit == NoUnit }) {
		said = append(said, "putt_length in "+f.puttUnit)
	}
	if len(plain) > 0 {
		said = append(said, listed(plain)+" in yards")
	}
	if len(said) == 0 {
		return ""
	}
	return "no unit named: " + strings.Join(said, "; ")
}
