package ingest

import (
	"bufio"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// A Mapping says which field a user's own column names mean, from a --columns
// file.
type Mapping map[string]meaning

// meaning is what a column holds: a field, the unit of its numbers (NoUnit for
// the default of the field) and the order of its dates.
type meaning struct {
	field  field
	unit   Unit
	order  dateOrder
	mapped *string // the name as the user's mapping has it, nil for none
}

// ReadMapping reads a --columns file: `their name = our name`, one a line, with
// an optional unit (`Dist = to_hole m`) or, for the date, an order (`Played =
// date day first`); # starts a comment. An error names the line.
func ReadMapping(name string, r io.Reader) (Mapping, error) {
	mapping := Mapping{}
	lines := bufio.NewScanner(r)
	for number := 1; lines.Scan(); number++ {
		theirs, ours, found, err := assignment(lines.Bytes())
		if err == nil && found {
			err = mapping.add(theirs, ours)
		}
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, number, err)
		}
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return mapping, nil
}

func (m Mapping) add(theirs, ours string) error {
	name := normalForm(theirs)
	if name == "" {
		return fmt.Errorf("%q has no letters to tell a column by", theirs)
	}
	if _, met := m[name]; met {
		return fmt.Errorf("%q is mapped twice", theirs)
	}
	meant, err := parseMeaning(ours)
	if err == nil {
		meant.mapped = &theirs
		m[name] = meant
	}
	return err
}

// slip is what to say of a mapping whose column is not among the names, when
// one that means nothing is nearly called so; "" for nothing.
func (m Mapping) slip(names, unused []string) string {
	there := map[string]bool{}
	for _, name := range names {
		there[normalForm(name)] = true
	}
	for _, mapped := range slices.Sorted(maps.Keys(m)) {
		if there[mapped] {
			continue
		}
		for _, name := range unused {
			if nearest(mapped, []string{normalForm(name)}) != "" {
				return fmt.Sprintf("--columns names %q: did you mean %q?", *m[mapped].mapped, name)
			}
		}
	}
	return ""
}

// A mappedUse remembers which names of a mapping some file has, and what the
// files have that means nothing.
type mappedUse struct {
	met    map[string]bool
	unused []string
}

// notes are the names of the mapping that no file has.
func (u *mappedUse) notes(mapping Mapping) (notes []Note) {
	for _, name := range slices.Sorted(maps.Keys(mapping)) {
		if u.met[*mapping[name].mapped] {
			continue
		}
		text := fmt.Sprintf("no file has a column %q", *mapping[name].mapped)
		for _, theirs := range u.unused {
			if nearest(name, []string{normalForm(theirs)}) != "" {
				text += fmt.Sprintf("; did you mean %q?", theirs)
				break
			}
		}
		notes = append(notes, Note{File: "--columns", Text: text})
	}
	return notes
}

func parseMeaning(text string) (meaning, error) {
	plain := plainForm(text)
	for suffix, order := range map[string]dateOrder{" day first": dayFirst, " month first": monthFirst, " year first": yearFirst} {
		if name, found := strings.CutSuffix(plain, suffix); found && fieldNamed(normalForm(name)) == date {
			return meaning{field: date, order: order}, nil
		}
	}
	m, ok := matchName(text)
	if !ok {
		return meaning{}, fmt.Errorf("%q is no field of the shot log%s", text, fieldHint(text))
	}
	return m, nil
}

// fieldHint names the field that is nearest to a text, or all of them.
func fieldHint(text string) string {
	names := fieldNames()
	inNormalForm := make([]string, len(names))
	for i, name := range names {
		inNormalForm[i] = normalForm(name)
	}
	if near := nearest(normalForm(text), inNormalForm); near != "" {
		return "; did you mean " + names[slices.Index(inNormalForm, near)] + "?"
	}
	return ": expected one of " + strings.Join(names, ", ")
}

func fieldNames() []string {
	names := make([]string, fieldCount)
	for f := range fieldCount {
		names[f] = definitions[f].name
	}
	return names
}
