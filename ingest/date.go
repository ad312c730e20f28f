package ingest

import "time"

const secondsPerDay = 24 * 60 * 60

// The years in which a round may have been played.
const firstYear, lastYear = 1900, 2200

// parseDate reads a date in the given order and returns days since 1970-01-01.
// Years have four digits; a date may carry a time of day, which is dropped.
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
	if moment.Day() != day || moment.Year() < firstYear || moment.Year() > lastYear {
		return 0, false
	}
	return float64(moment.Unix() / secondsPerDay), true
}

// dateOf is the day so many days after 1970-01-01.
func dateOf(days float64) time.Time { return time.Unix(int64(days)*secondsPerDay, 0).UTC() }

// dateParts cuts a date into its three numbers. They stand between the same
// separator twice, or together as eight digits, year first.
func dateParts(text []byte) (parts, widths [3]int, ok bool) {
	if len(text) == 8 && digitsIn(text) == 8 {
		number := 0
		for _, c := range text {
			number = number*10 + int(c-'0')
		}
		return [3]int{number / 10000, number / 100 % 100, number % 100}, [3]int{4, 2, 2}, true
	}
	var separator byte
	for part := range parts {
		n := digitsIn(text)
		if n == 0 || n > 4 {
			return parts, widths, false
		}
		for _, c := range text[:n] {
			parts[part] = parts[part]*10 + int(c-'0')
		}
		widths[part] = n
		if text = text[n:]; part == 2 {
			break
		}
		if len(text) == 0 || text[0] != '-' && text[0] != '/' && text[0] != '.' || part == 1 && text[0] != separator {
			return parts, widths, false
		}
		separator, text = text[0], text[1:]
	}
	return parts, widths, len(text) == 0 || isTimeOfDay(text)
}

// isTimeOfDay tells what may stand behind a date: T or a space, then hours
// and minutes.
func isTimeOfDay(text []byte) bool {
	if text[0] != 'T' && text[0] != ' ' {
		return false
	}
	hours := digitsIn(text[1:])
	minutes := text[1+hours:]
	return (hours == 1 || hours == 2) && len(minutes) > 1 && minutes[0] == ':' && digitsIn(minutes[1:]) == 2
}

// digitsIn is how many digits a text begins with.
func digitsIn(text []byte) int {
	for i, c := range text {
		if c < '0' || c > '9' {
			return i
		}
	}
	return len(text)
}
