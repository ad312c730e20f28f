package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// approachValueWords makes the sentences of the value grid from its figures.
type approachValueWords struct {
	season     Season
	cells      []valueCell
	approaches int
}

// named is a cell in words: approaches from fairway, 150–175 yd.
func (w approachValueWords) named(cell valueCell) string {
	return fmt.Sprintf("approaches from %s, %s%s%s", cell.LieGroup, w.season.Units.Band(cell.BandFromYd, cell.BandToYd), NoBreak, w.season.Units.LongSymbol())
}

// title names the cell whose interval is clear of zero that lost the most in
// all, so that many shots count for more than a bad average of few.
func (w approachValueWords) title() string {
	const question = "Where do approaches lose strokes?"
	known := false
	var losing, gaining []valueCell
	for _, cell := range w.cells {
		known = known || cell.hasInterval()
		switch {
		case cell.LieGroup == metrics.AllLies:
		case cell.loses():
			losing = append(losing, cell)
		case cell.gains():
			gaining = append(gaining, cell)
		}
	}
	inAll := func(a, b valueCell) int {
		return cmp.Compare(math.Abs(a.value)*float64(a.N), math.Abs(b.value)*float64(b.N))
	}
	says := func(cell valueCell, verb string) string {
		return fmt.Sprintf("%s, %s %s each", Sentence(w.named(cell)), verb, Strokes(cell.amount()))
	}
	switch {
	case len(losing) == 1:
		return says(losing[0], "lose")
	case len(losing) == 2:
		return says(slices.MaxFunc(losing, inAll), "lose") + "; one other group loses too"
	case len(losing) > 2:
		return fmt.Sprintf("%s; %s other groups lose too", says(slices.MaxFunc(losing, inAll), "lose"), strings.ToLower(InWords(len(losing)-1)))
	case len(gaining) > 0:
		return says(slices.MaxFunc(gaining, inAll), "gain") + "; no group clearly loses"
	case known:
		return question + " No group stands clear of the benchmark"
	case w.season.fewRounds():
		return question + " " + tooFewRounds(w.season.Rounds)
	}
	return question + " Too few shots to say"
}

func (w approachValueWords) counted() []string {
	var filled, pale, few bool
	for _, cell := range w.cells {
		filled = filled || cell.clear()
		pale = pale || !cell.few() && !cell.clear()
		few = few || cell.few()
	}
	reading := []string{"In a square: strokes gained an approach, and how many there are."}
	if filled {
		reading = append(reading, "Orange loses, blue gains: the 90"+NoBreak+"% interval is clear of zero.")
	}
	switch {
	case pale && slices.ContainsFunc(w.cells, valueCell.hasInterval):
		reading = append(reading, "Grey: it spans zero.")
	case pale:
		reading = append(reading, "Grey: no interval under "+strings.ToLower(InWords(fewestRounds))+" rounds.")
	}
	if few {
		reading = append(reading, fmt.Sprintf("Hollow: under %d"+NoBreak+"shots.", fewestSolid))
	}
	return append(w.season.countedAgainst(Counted(w.approaches, "approach", "approaches")), strings.Join(reading, " "))
}

func (w approachValueWords) source() []string {
	tested := 0
	for _, cell := range w.cells {
		if cell.hasInterval() && cell.LieGroup != metrics.AllLies {
			tested++
		}
	}
	text := "Approaches that played at the green; fairway takes in the tee of a par" + NoBreak + "3."
	if expected := clearByChance(tested); expected > 0 {
		text += fmt.Sprintf(" Of %d groups about %s would be clear of zero by chance.", tested, strings.ToLower(InWords(expected)))
	}
	return w.season.source(text)
}

// alt says what the picture shows, cell by cell.
func (w approachValueWords) alt() string {
	var cells []string
	for _, cell := range w.cells {
		if cell.LieGroup == metrics.AllLies {
			continue
		}
		cells = append(cells, fmt.Sprintf("%s %s of %s", strings.TrimPrefix(w.named(cell), "approaches from "), cell.withInterval(), Counted(int(cell.N), "shot", "shots")))
	}
	return fmt.Sprintf("Strokes gained an approach by lie and distance, with 90 %% interval where there is one: %s.",
		strings.Join(cells, "; "))
}
