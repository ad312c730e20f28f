package ingest

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// parseNamedDate reads a date whose month is written by its English name, in
// full or by its first three letters, perhaps with the day of the week before
// it: 31 May 2026, May 31st, 2026, 2026-May-31.
func parseNamedDate(text []byte) (days float64, ok bool) {
	parts := strings.Fields(plainForm(validText(text)))
	if len(parts) == 4 && isWeekday(parts[0]) {
		parts = parts[1:]
	}
	if len(parts) != 3 {
		return 0, false
	}
	var month time.Month
	var year, day string
	switch {
	case monthNamed(parts[1]) > 0 && len(parts[0]) == 4:
		year, month, day = parts[0], monthNamed(parts[1]), parts[2]
	case monthNamed(parts[1]) > 0:
		day, month, year = parts[0], monthNamed(parts[1]), parts[2]
	case monthNamed(parts[0]) > 0:
		month, day, year = monthNamed(parts[0]), parts[1], parts[2]
	default:
		return 0, false
	}
	for _, suffix := range []string{"st", "nd", "rd", "th"} {
		day = strings.TrimSuffix(day, suffix)
	}
	return parseDate([]byte(year+"-"+strconv.Itoa(int(month))+"-"+day), yearFirst)
}

// monthNamed is the month of an English name in plain form, 0 for no month.
func monthNamed(name string) time.Month {
	for month := time.January; month <= time.December; month++ {
		full := strings.ToLower(month.String())
		if name == full || name == full[:3] || name == "sept" && month == time.September {
			return month
		}
	}
	return 0
}

func isWeekday(name string) bool {
	for day := time.Sunday; day <= time.Saturday; day++ {
		full := strings.ToLower(day.String())
		if name == full || name == full[:3] {
			return true
		}
	}
	return false
}

// dateHint says what to do about a text that is no date in the order of its file.
func dateHint(text []byte, order dateOrder) string {
	if len(text) == 5 && digitsIn(text) == 5 {
		return "this may be the day number of a spreadsheet: format the column as a date"
	}
	if parts, widths, ok := dateParts(text); ok && max(widths[0], widths[2]) == 4 {
		switch year := max(parts[0], parts[2]); {
		case year < firstYear || year > lastYear:
			return fmt.Sprintf("of the years %d to %d", firstYear, lastYear)
		case order == yearFirst && widths[0] != 4 && max(parts[0], parts[1]) > 12: // no question which is the day
			return "the dates above have the year first: write this one so too"
		case order == yearFirst && widths[0] != 4:
			return "day first or month first? The dates above have the year first: write this one so too, or say which in a --columns file: date = date day first"
		default:
			return "there is no such day"
		}
	}
	return "write the year with four digits, year first"
}
