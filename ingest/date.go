package ingest

import (
	"bytes"
	"time"
)

// A dateOrder is the order of year, month and day in a file's dates.
type dateOrder uint8

const (
	yearFirst dateOrder = iota
	dayFirst
	monthFirst
	unsettled
)

const secondsPerDay = 24 * 60 * 60

// parseDate reads a date in the given order and returns days since 1970-01-01.
// Years have four digits; an ISO date may carry a time of day, which is dropped.
func parseDate(text []byte, order dateOrder) (days float64, ok bool) {
	parts, widths, ok := dateParts(text)
	if !ok {
		return 0, false
	}
	year, month, day := parts[0], parts[1], parts[2]
	width := widths[0]
	switch {
	case widths[0] == 4:
	case order == dayFirst:
		day, month, year, width = parts[0], parts[1], parts[2], widths[2]
	case order == monthFirst:
		month, day, year, width = parts[0], parts[1], parts[2], widths[2]
	default:
		return 0, false
	}
	if width != 4 || month < 1 || month > 12 {
		return 0, false
	}
	moment := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if moment.Day() != day || moment.Year() < 1900 || moment.Year() > 2200 {
		return 0, false
	}
	return float64(moment.Unix() / secondsPerDay), true
}

// dateParts cuts a date into its three numbers.
func dateParts(text []byte) (parts, widths [3]int, ok bool) {
	if len(text) == 8 && allDigits(text) {
		text = []byte(string(text[:4]) + "-" + string(text[4:6]) + "-" + string(text[6:]))
	}
	part := 0
	for i, c := range text {
		switch {
		case c >= '0' && c <= '9':
			parts[part] = parts[part]*10 + int(c-'0')
			if widths[part]++; widths[part] > 4 {
				return parts, widths, false
			}
		case (c == '-' || c == '/' || c == '.') && part < 2 && widths[part] > 0:
			part++
		case (c == 'T' || c == ' ') && i >= 8 && part == 2 && widths[0] == 4:
			return parts, widths, widths[2] > 0
		default:
			return parts, widths, false
		}
	}
	return parts, widths, part == 2 && widths[2] > 0
}

func allDigits(text []byte) bool {
	for _, c := range text {
		if c < '0' || c > '9' {
			return false
		}
	}
	return true
}

// A dateSurvey learns the order of a file's dates from all of them.
type dateSurvey struct {
	yearFirst, others  int // dates seen
	dayOnly, monthOnly int // of the others, what can only be day first or month first
	example            string
}

func (s *dateSurvey) see(text []byte, stated dateOrder) {
	parts, widths, ok := dateParts(text)
	if !ok || widths[0] == 4 || stated != unsettled {
		s.yearFirst++
		return
	}
	s.others++
	s.example = string(text)
	if parts[0] > 12 && parts[1] <= 12 {
		s.dayOnly++
	}
	if parts[1] > 12 && parts[0] <= 12 {
		s.monthOnly++
	}
}

// order settles the file's order; it is unsettled when no date tells, or when
// dates contradict one another.
func (s *dateSurvey) order() dateOrder {
	switch {
	case s.others == 0:
		return yearFirst
	case s.dayOnly > 0 && s.monthOnly == 0:
		return dayFirst
	case s.monthOnly > 0 && s.dayOnly == 0:
		return monthFirst
	}
	return unsettled
}

// begin, set, fault and end make the survey a sink that looks at dates only.
func (s *dateSurvey) begin(int, string)    {}
func (s *dateSurvey) fault(string, string) {}
func (s *dateSurvey) end()                 {}
func (s *dateSurvey) set(m *meaning, text []byte) {
	if text = bytes.TrimSpace(text); m.field == date && len(text) > 0 {
		s.see(text, m.order)
	}
}
