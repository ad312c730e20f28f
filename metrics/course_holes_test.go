package metrics

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"roundmill/testdata/demo"
)

// fivePlays are five rounds of two holes: the first, of 400 yd, in 4, 5, 4, 6
// and 4; the second, a par 3, in 3 each time, and in the fifth round picked up.
func fivePlays() []byte {
	var rounds []writtenRound
	for i, score := range []int{4, 5, 4, 6, 4} {
		rounds = append(rounds, writtenRound{date: fmt.Sprintf("2026-05-%02d", i+1), holes: []writtenHole{
			{par: 4, score: score, lengthYd: 400}, {par: 3, score: 3, lengthYd: 160, pickedUp: i == 4},
		}})
	}
	return writtenLog(rounds...)
}

// Worked by hand: over par 0, 1, 0, 2, 0: mean 0.6, standard deviation 0.8944.
// Student's t at 95 % with 4 degrees of freedom is 2.132 (published in every
// table of it): 0.6 ± 2.132 x 0.4.
func TestAHoleIsToldOfFromFivePlaysOn(t *testing.T) {
	rows := addTo(t, newCourseHoleFigures(testOptions()), fivePlays()).Rows()
	if len(rows) != 1 {
		t.Fatalf("%d holes have five plays", len(rows))
	}
	row := rows[0]
	near := func(a, b float64) bool { return math.Abs(a-b) < 5e-4 }
	if row.Course != "Invented Links" || row.Hole != 1 || row.Par != 4 || row.N != 5 || row.LengthYd != 400 || row.OverPar != 2 || row.DoublesOrWorse != 1 {
		t.Errorf("%+v", row)
	}
	if !near(row.ToPar, 0.6) || !near(row.ToParLo, 0.6-2.132*0.4) || !near(row.ToParHi, 0.6+2.132*0.4) {
		t.Errorf("over par %v (%v to %v)", row.ToPar, row.ToParLo, row.ToParHi)
	}
	// 3.99 from the tee (2012 table, from memory) less the score.
	if !near(row.StrokesGained, 3.99-4.6) || !near(row.TeeShot+row.Approach+row.ShortGame+row.Putt, row.StrokesGained) {
		t.Errorf("strokes gained %+v", row)
	}
}

// Over all plays of a hole the classes add up to what the hole gained, the
// clubs to the plays, and the holes of table and log agree.
func TestCourseHolesAddUp(t *testing.T) {
	figures := addTo(t, newCourseHoleFigures(testOptions()), demo.CSV)
	holes, clubs := figures.Rows(), figures.ClubRows()
	if len(holes) != 72 {
		t.Errorf("%d holes of four courses", len(holes))
	}
	n, toPar := int64(0), 0.0
	for _, hole := range holes {
		n += hole.N
		toPar += hole.ToPar * float64(hole.N)
		classes := hole.Approach + hole.ShortGame + hole.Putt
		if hole.Par > 3 {
			classes += hole.TeeShot
		} else if !math.IsNaN(hole.TeeShot) {
			t.Errorf("a tee shot on a par 3: %+v", hole)
		}
		if math.Abs(classes-hole.StrokesGained) > 1e-9 {
			t.Errorf("%s %d: classes gain %v, the hole %v", hole.Course, hole.Hole, classes, hole.StrokesGained)
		}
		plays, ofClubs := int64(0), 0.0
		for _, club := range clubs {
			if club.Course == hole.Course && club.Hole == hole.Hole {
				plays += club.N
				ofClubs += club.ToPar * float64(club.N) / float64(hole.N)
			}
		}
		if plays != hole.N || math.Abs(ofClubs-hole.ToPar) > 1e-9 {
			t.Errorf("%s %d: clubs have %d plays at %v, the hole %d at %v", hole.Course, hole.Hole, plays, ofClubs, hole.N, hole.ToPar)
		}
	}
	season := figuresOf(t, demo.CSV).Seasons[0]
	if n != season.Holes || math.Abs(18*toPar/float64(n)-season.ToPar) > 1e-9 {
		t.Errorf("%d plays at %v, the season %d at %v", n, 18*toPar/float64(n), season.Holes, season.ToPar)
	}
}

// emptied is a log with the cells of a column empty.
func emptied(log []byte, column string) []byte {
	lines := strings.Split(strings.TrimSpace(string(log)), "\n")
	at := -1
	for i, name := range strings.Split(lines[0], ",") {
		if name == column {
			at = i
		}
	}
	for i, line := range lines[1:] {
		cells := strings.Split(line, ",")
		cells[at] = ""
		lines[i+1] = strings.Join(cells, ",")
	}
	return []byte(strings.Join(lines, "\n") + "\n")
}

// Without a column only what needs it is missing, and a warning names it.
func TestOptionalColumnsOfScoring(t *testing.T) {
	warned := func(warnings []Warning, column string) bool {
		for _, warning := range warnings {
			if strings.Contains(warning.Text, "`"+column+"`") && warning.Player != "" {
				return true
			}
		}
		return false
	}
	noCourse := addTo(t, newCourseHoleFigures(testOptions()), emptied(demo.CSV, "course"))
	if rows := noCourse.Rows(); len(rows) != 0 || !warned(noCourse.warnings(), "course") {
		t.Errorf("without course: %d rows, %v", len(rows), noCourse.warnings())
	}
	whole := addTo(t, newCourseHoleFigures(testOptions()), demo.CSV)
	noClub := addTo(t, newCourseHoleFigures(testOptions()), emptied(demo.CSV, "club"))
	sameRows(t, "holes without club", whole.Rows(), noClub.Rows())
	if rows := noClub.ClubRows(); len(rows) != 72 || rows[0].Club != "" || !warned(noClub.warnings(), "club") {
		t.Errorf("without club: %d rows, %v", len(rows), noClub.warnings())
	}
	noFault := addTo(t, newVerdictFigures(testOptions()), emptied(demo.CSV, "fault"))
	for _, row := range noFault.Rows() {
		if row.GroupKind != ByIntent {
			t.Errorf("without fault: %+v", row)
		}
	}
	if !warned(noFault.warnings(), "fault") || warned(noFault.warnings(), "intent") {
		t.Errorf("without fault: %v", noFault.warnings())
	}
	if warnings := addTo(t, newVerdictFigures(testOptions()), demo.CSV).warnings(); len(warnings) != 0 {
		t.Errorf("nothing is missing: %v", warnings)
	}
	if bytes.Equal(demo.CSV, emptied(demo.CSV, "fault")) {
		t.Error("the column was not emptied")
	}
}
