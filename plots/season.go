package plots

import (
	"fmt"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

// Season describes what was counted, for the line under a chart's title. Names
// may hold anything that a log holds. The zero value of a field leaves its
// part of the line out.
type Season struct {
	Player       string
	From, To     time.Time // first and last day with a round in it
	Rounds       int
	Shots        int
	Baseline     string // name of what strokes gained are measured against
	BaselineNote string // where the baseline comes from, for the source line
	Units        Units
	Invented     bool // the built-in demo season
}

// drawnFrom ends the foot of every chart.
const drawnFrom = "Drawn by roundmill from the player's shot log."

// fewestRounds is the number of rounds from which intervals over rounds are drawn.
const fewestRounds = 5

// fewRounds says whether so few rounds are known that they carry no finding.
func (s Season) fewRounds() bool { return 0 < s.Rounds && s.Rounds < fewestRounds }

// tooFewRounds says that so many rounds, one to four, carry no finding.
func tooFewRounds(rounds int) string {
	if rounds == 1 {
		return "One round is too few to say"
	}
	return InWords(rounds) + " rounds are too few to say"
}

// HolesBehind is how many holes a score is made of, where that needs saying:
// they are not one round, or more than one in twenty of those logged is not
// complete, and the holes that are picked up are the bad ones.
func HolesBehind(season metrics.Season) string {
	complete := "from " + Counted(int(season.Holes), "complete hole", "complete holes")
	switch {
	case 20*season.HolesIncomplete > season.Holes+season.HolesIncomplete:
		return fmt.Sprintf("%s (%s not complete)", complete, Counted(int(season.HolesIncomplete), "more is", "more are"))
	case season.Holes < 18:
		return complete
	}
	return ""
}

// counted is what was counted, in one line: who, when and how much.
func (s Season) counted(more ...string) string { return s.countedOf(namePrinted(s.Player), more...) }

// countedOf is the same with the player's name as it is to be printed.
func (s Season) countedOf(player string, more ...string) string {
	var parts []string
	if s.Invented {
		parts = append(parts, "Invented demo data")
	}
	if player != "" {
		parts = append(parts, player)
	}
	if dates := s.dates(); dates != "" {
		parts = append(parts, dates)
	}
	if s.Rounds > 0 {
		parts = append(parts, Counted(s.Rounds, "round", "rounds"))
	}
	return strings.Join(append(parts, more...), " · ")
}

// countedAgainst is counted with the benchmark, which gets a line of its own
// where it is long.
func (s Season) countedAgainst(more ...string) []string {
	lines := []string{s.counted(more...)}
	if baseline := printable(s.Baseline); baseline != "" {
		f := quiet.face()
		baseline = shortened("benchmark: "+baseline, f, lineWidth)
		if line := s.counted(append(more, baseline)...); f.Width(line) <= lineWidth {
			return []string{line}
		}
		lines = append(lines, Sentence(baseline))
	}
	return lines
}

// source is the foot of a chart of figures against the benchmark.
func (s Season) source(text string) []string {
	lines := []string{strings.TrimLeft(text+" "+drawnFrom, " ")}
	if about := printable(s.BaselineNote); about != "" {
		lines = append(lines, "Benchmark: "+about)
	}
	return lines
}

func (s Season) dates() string {
	const day, whole = "2 Jan", "2 Jan 2006"
	var span string
	switch {
	case s.From.IsZero() || s.To.IsZero():
		return ""
	case s.From.Format(whole) == s.To.Format(whole):
		span = s.To.Format(whole)
	case s.From.Year() == s.To.Year():
		span = s.From.Format(day) + " – " + s.To.Format(whole)
	default:
		span = s.From.Format(whole) + " – " + s.To.Format(whole)
	}
	return strings.ReplaceAll(span, " ", NoBreak)
}

// namePrinted is a name from the input in a form that leaves room for the
// rest of its line.
func namePrinted(name string) string {
	const mostWidth = vg.Length(190)
	return shortened(printable(name), quiet.face(), mostWidth)
}
