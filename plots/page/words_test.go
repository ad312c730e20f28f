package page

import (
	"math"
	"strings"
	"testing"
	"time"

	"roundmill/plots"
)

var unknown = math.NaN()

// said compares words, in which a blank stands for one that does not break.
func said(t *testing.T, name, got, want string) {
	t.Helper()
	if got = plain(strings.ReplaceAll(got, plots.NoBreak, " ")); got != want {
		t.Errorf("%s:\n got %s\nwant %s", name, got, want)
	}
}

func day(text string) time.Time {
	d, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return d
}
