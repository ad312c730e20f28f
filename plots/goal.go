package plots

import (
	"fmt"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const (
	goalName = "goal"

	mostGoalGains = 8 // priorities drawn
)

// noHoles says why there is no chart.
const noHoles = "No complete hole to draw the chance from."

// goalRow is the chance of the goal by both ways to make a round, now or after
// a gain.
type goalRow struct {
	name, gain     string // gain is empty for now
	holes, byRound chanceOf
}

// chanceOf is a chance with its interval.
type chanceOf struct{ value, lo, hi float64 }

// known says whether there are rounds enough for the chance to mean anything.
func (c chanceOf) known() bool { return !math.IsNaN(c.value + c.lo + c.hi) }

// GoalChart draws the chance of the goal in one round, now and after each of
// the first priorities is closed, by both ways to make a round, with 90 %
// intervals. Rows of other players are left out.
// Exactly one of the results is not nil.
func GoalChart(season Season, chances []metrics.GoalChance, after []metrics.GoalAfter, priorities []metrics.Priority) (*Chart, *Missing) {
	words := goalWords{season: season}
	unknown := chanceOf{math.NaN(), math.NaN(), math.NaN()}
	words.now = goalRow{name: "Now", holes: unknown, byRound: unknown}
	for _, row := range chances {
		if row.Player != season.Player {
			continue
		}
		words.goal = row
		switch of := (chanceOf{row.Chance, row.ChanceLo, row.ChanceHi}); row.Method {
		case metrics.ByHoles:
			words.now.holes, words.holes = of, row.N
		case metrics.ByRounds:
			words.now.byRound, words.rounds = of, row.N
		}
	}
	if words.goal.Goal == "" {
		return nil, &Missing{goalName, noHoles}
	}
	if !words.now.holes.known() {
		return nil, &Missing{goalName, fmt.Sprintf("It needs %d rounds with complete holes; the log has %d.", fewestRounds, words.goal.Rounds)}
	}
	for _, row := range after {
		i := slices.IndexFunc(priorities, func(p metrics.Priority) bool { return p.Player == season.Player && p.Cell == row.Gain })
		if row.Player != season.Player || i < 0 || len(words.after) == mostGoalGains {
			continue
		}
		words.after = append(words.after, goalRow{
			name: Sentence(partOfGame(priorities[i], season.Units)), gain: strokesToGain(priorities[i]),
			holes: chanceOf{row.HolesChance, row.HolesLo, row.HolesHi}, byRound: chanceOf{row.RoundsChance, row.RoundsLo, row.RoundsHi},
		})
	}
	picture := goalPicture{words: words}
	picture.axis = picture.scale()
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(goalName, text, picture.height(), picture.draw), nil
}

// goalPicture is the layout of the chart, from left to right: what is closed,
// marks on one scale, the chance by holes and by rounds.
type goalPicture struct {
	words goalWords
	axis  scale
}

const (
	goalStart       = vg.Length(244)
	goalEnd         = vg.Length(408)
	goalHolesMiddle = vg.Length(456)
	goalRoundMiddle = vg.Length(526)
	goalHeads       = vg.Length(20)
	goalRowHeight   = vg.Length(38)
	goalAfterHead   = vg.Length(28)
)

func (p goalPicture) height() vg.Length {
	height := goalHeads + goalRowHeight*vg.Length(1+len(p.words.after)) + gainAxisHeight
	if len(p.words.after) > 0 {
		height += goalAfterHead
	}
	return height
}

// scale starts at no chance and holds every interval.
func (p goalPicture) scale() scale {
	most := 0.05
	for _, row := range append([]goalRow{p.words.now}, p.words.after...) {
		for _, c := range []chanceOf{row.holes, row.byRound} {
			if c.known() {
				most = max(most, c.hi)
			}
		}
	}
	return scale{from: 0, to: 100 * min(1, 1.04*most), start: goalStart, end: goalEnd}
}

func (p goalPicture) draw(c *canvas, top vg.Length) {
	base := top + goalHeads - 6
	c.text(goalHolesMiddle, base, centred, quiet.in(blue), "by holes")
	c.text(goalRoundMiddle, base, centred, quiet.in(lossText), "by rounds")
	c.mark(circle, goalHolesMiddle-27, base-quiet.middle(), 6, blue, 0, nil)
	c.mark(diamond, goalRoundMiddle-30, base-quiet.middle(), 6, vermilion, 0, nil)
	y := top + goalHeads
	bottom := top + p.height() - gainAxisHeight
	c.uprightGrid(p.axis, y, y, bottom, Number, "chance in one round, %")
	p.drawRow(c, p.words.now, y+goalRowHeight/2)
	y += goalRowHeight
	if len(p.words.after) > 0 {
		c.line(margin, y+5, chartWidth-margin, y+5, 0.6, paleGrey)
		c.text(margin, y+22, fromLeft, quiet, "Played at the benchmark, and all else as now:")
		y += goalAfterHead
	}
	for _, row := range p.words.after {
		p.drawRow(c, row, y+goalRowHeight/2)
		y += goalRowHeight
	}
}

func (p goalPicture) drawRow(c *canvas, row goalRow, middle vg.Length) {
	if row.gain == "" {
		c.text(margin, middle+strong.middle(), fromLeft, strong, row.name)
	} else {
		c.text(margin, middle-1, fromLeft, body, row.name)
		c.text(margin, middle+12, fromLeft, quiet, row.gain+" strokes a round")
	}
	p.drawChance(c, row.holes, circle, blue, blue, middle-5, goalHolesMiddle, middle, Chance(row.holes.value))
	p.drawChance(c, row.byRound, diamond, vermilion, lossText, middle+6, goalRoundMiddle, middle, Percent(row.byRound.value))
}

func (p goalPicture) drawChance(c *canvas, of chanceOf, form shape, fill, text color.RGBA, markY, figures, middle vg.Length, printed string) {
	const diameter, rim = vg.Length(7.5), vg.Length(1.2)
	if !of.known() {
		c.text(figures, middle+body.middle(), centred, body.in(grey), "–")
		return
	}
	at := func(share float64) vg.Length { return p.axis.at(100 * share) }
	c.line(at(of.lo), markY, at(of.hi), markY, 2.4, tint(fill, 0.75))
	c.mark(form, at(of.value), markY, diameter, fill, rim, color.White)
	c.text(figures, middle-1, centred, strong.in(text), printed)
	c.text(figures, middle+12, centred, quiet, chanceInterval(of))
}
