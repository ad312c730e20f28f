package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// teeClubWords makes the sentences of the tee club chart from its figures.
type teeClubWords struct {
	season  Season
	clubs   []teeClubRow                // as drawn, longest first
	leftOut int                         // clubs used less
	pairs   []metrics.TeeClubDifference // with ten holes each, the most holes first
}

// clubPrinted is a club's name in a form that leaves room for a sentence.
func clubPrinted(club string) string {
	const mostWidth = 120
	return shortened(printable(club), quiet.face(), mostWidth)
}

func (w teeClubWords) distance(row teeClubRow) string {
	return Number(w.season.Units.FromYards(row.MedianYd), 0)
}

func (w teeClubWords) distanceInterval(row teeClubRow) string {
	if !row.hasInterval() || math.IsNaN(row.MedianLoYd+row.MedianHiYd) {
		return ""
	}
	units := w.season.Units
	return fmt.Sprintf("(%s–%s)", Number(units.FromYards(row.MedianLoYd), 0), Number(units.FromYards(row.MedianHiYd), 0))
}

func againstPrinted(pair metrics.TeeClubDifference) string {
	return fmt.Sprintf("%s against %s", clubPrinted(pair.ShorterClub), clubPrinted(pair.LongerClub))
}

// pairPrinted is what the shorter club gains on the longer one, with intervals.
func pairPrinted(pair metrics.TeeClubDifference) string {
	with := func(value, lo, hi float64) string {
		decimals := max(1, IntervalDecimals(value, lo, hi))
		return fmt.Sprintf("%s (%s to %s)", Signed(value, decimals), Signed(lo, decimals), Signed(hi, decimals))
	}
	text := "strokes gained " + with(pair.StrokesGained, pair.StrokesGainedLo, pair.StrokesGainedHi)
	if !math.IsNaN(pair.Score + pair.ScoreLo + pair.ScoreHi) {
		text += "; score " + with(pair.Score, pair.ScoreLo, pair.ScoreHi)
	}
	return fmt.Sprintf("%s; %s and %s holes", text, compact(int(pair.NShorter), 4), compact(int(pair.NLonger), 4))
}

// title compares two clubs where holes of like length tell them apart, else
// says what the club used most does.
func (w teeClubWords) title() string {
	for _, pair := range w.pairs {
		better, worse := pair.ShorterClub, pair.LongerClub
		switch {
		case pair.StrokesGainedHi < 0:
			better, worse = worse, better
		case pair.StrokesGainedLo <= 0:
			continue
		}
		amount := Number(math.Abs(pair.StrokesGained), max(1, Decimals(pair.StrokesGained, pair.StrokesGainedHi-pair.StrokesGainedLo)))
		return fmt.Sprintf("On holes of like length the %s gains %s a tee shot on the %s", clubPrinted(better), Strokes(amount), clubPrinted(worse))
	}
	const question = "Which club off the tee?"
	used := slices.MaxFunc(w.clubs, func(a, b teeClubRow) int { return cmp.Compare(a.N, b.N) })
	amount := Strokes(used.amount())
	untold := ""
	if len(w.pairs) > 0 {
		untold = "; on holes of like length no other is clearly better"
	}
	switch {
	case used.loses():
		return fmt.Sprintf("The %s loses %s a tee shot%s", clubPrinted(used.Club), amount, untold)
	case used.gains():
		return fmt.Sprintf("The %s gains %s a tee shot%s", clubPrinted(used.Club), amount, untold)
	case used.hasInterval():
		return question + " None stands clear of the benchmark"
	case w.season.fewRounds():
		return question + " " + tooFewRounds(w.season.Rounds)
	}
	return question + " Too few shots to say"
}

func (w teeClubWords) counted() []string {
	shots := 0
	few, intervals := false, false
	for _, row := range w.clubs {
		shots += int(row.N)
		few, intervals = few || row.few(), intervals || row.hasInterval()
	}
	reading := "Mark: strokes gained a tee shot."
	if intervals {
		reading += " Bar and brackets: 90" + NoBreak + "% intervals. Filled: clear of zero."
	}
	if few {
		reading += fmt.Sprintf(" Pale: under %d"+NoBreak+"shots.", fewestSolid)
	}
	return append(w.season.countedAgainst(Counted(shots, "tee shot", "tee shots")), reading)
}

func (w teeClubWords) source() []string {
	text := "Tee shots on par 4s and 5s. Clubs are chosen for the hole: figures over all holes compare holes as much as clubs."
	if w.leftOut > 0 {
		text += fmt.Sprintf(" Not drawn: %s used less.", Counted(w.leftOut, "club", "clubs"))
	}
	if hidden := len(w.pairs) - mostClubsPaired; hidden > 0 {
		text += fmt.Sprintf(" %s more in the tables.", Sentence(Counted(hidden, "pair", "pairs")))
	}
	return w.season.source(text)
}

// alt says what the picture shows, club by club.
func (w teeClubWords) alt() string {
	var clubs []string
	for _, row := range w.clubs {
		clubs = append(clubs, fmt.Sprintf("%s %s, %s %s, of %s", clubPrinted(row.Club), row.withInterval(), w.distance(row), w.season.Units.Long(), Counted(int(row.N), "shot", "shots")))
	}
	for _, pair := range w.pairs {
		clubs = append(clubs, fmt.Sprintf("on holes of like length %s %s", againstPrinted(pair), pairPrinted(pair)))
	}
	return fmt.Sprintf("Strokes gained a tee shot by club: %s.", strings.Join(clubs, "; "))
}
