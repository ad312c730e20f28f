package ingest

import (
	"bytes"
	"context"
	"errors"
	"fmt"
)

// A dateOrder is the order of year, month and day in a file's dates.
type dateOrder uint8

const (
	yearFirst dateOrder = iota
	dayFirst
	monthFirst
	unsettled
)

func (o dateOrder) String() string {
	return [...]string{"year first", "day first", "month first", "unsettled"}[o]
}

// settleDates decides the order of a file's dates: by its first record when
// that has the year first, else by all of them. The first chunk is at hand.
func (f *file) settleDates(ctx context.Context, first chunk, mapping Mapping) error {
	if first.table != nil {
		first.table = first.table.NewSlice(0, min(1, first.table.NumRows()))
	} else if first.data != nil {
		end, _ := f.dialect.recordEnd(first.data, true)
		first.data = first.data[:end]
	} else if first.lines != nil {
		first.lines = first.lines[:firstJSONLine(first.lines)]
	} else {
		first.elements = first.elements[:1]
	}
	peek := &dateSurvey{}
	first.feed(mapping, peek)
	if peek.settled {
		f.dates = yearFirst
		return nil
	}
	whole := &dateSurvey{}
	again := *f
	again.passed = nil
	_, err := again.chunks(ctx, 0, defaultChunkBytes, mapping, func(c chunk) error {
		c.feed(mapping, whole)
		return nil
	})
	var problem *fileProblem
	if err != nil && !errors.As(err, &problem) { // a problem comes up again when the file is read
		return err
	}
	f.dates, err = whole.order()
	return err
}

// A dateSurvey learns the order of a file's dates from all of them. It is a
// sink that looks at nothing else.
type dateSurvey struct {
	line      int
	settled   bool // a date that needs no survey: year first, or its order is stated
	example   seenDate
	dayOnly   seenDate // can only be day first
	monthOnly seenDate // can only be month first
}

type seenDate struct {
	text string
	line int
}

func (s *dateSurvey) begin(line int, _ string) { s.line = line }
func (s *dateSurvey) repeat([]meaning)         {}
func (s *dateSurvey) fault(string, string)     {}
func (s *dateSurvey) end() bool                { return true }
func (s *dateSurvey) withdraw(noShot)          {}
func (s *dateSurvey) incomplete()              {}

func (s *dateSurvey) original([]string, []meaning, [][]byte) {}

func (s *dateSurvey) set(m *meaning, text []byte) {
	if m.field != date {
		return
	}
	text = bytes.TrimSpace(text)
	parts, widths, ok := dateParts(text)
	switch {
	case !ok:
		return
	case m.order != unsettled || widths[0] == 4:
		s.settled = true
		return
	}
	seen := seenDate{string(text), s.line}
	s.example = seen
	if parts[0] > 12 && parts[1] <= 12 {
		s.dayOnly = seen
	}
	if parts[1] > 12 && parts[0] <= 12 {
		s.monthOnly = seen
	}
}

// order settles the file's order. The error is a *fileProblem: no date tells,
// or dates contradict one another.
func (s *dateSurvey) order() (dateOrder, error) {
	const hint = "write dates as 2026-05-31, or say which in a --columns file: date = date day first"
	day, month := s.dayOnly.line > 0, s.monthOnly.line > 0
	switch {
	case s.example.line == 0:
		return yearFirst, nil
	case day && month:
		return unsettled, &fileProblem{
			text: fmt.Sprintf("date %q on line %d can only be day first, %q on line %d only month first", s.dayOnly.text, s.dayOnly.line, s.monthOnly.text, s.monthOnly.line),
			hint: hint,
		}
	case day:
		return dayFirst, nil
	case month:
		return monthFirst, nil
	}
	return unsettled, &fileProblem{
		text: fmt.Sprintf("date %q: day first or month first? No date in the file settles it", s.example.text),
		hint: hint,
	}
}
