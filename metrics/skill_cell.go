package metrics

import (
	"fmt"
	"math"

	"roundmill/transform"
)

// skillCell is a part of the game that can be practised as one: a class of
// strokes, from one kind of lie, over a range of distances to the hole (of hole
// lengths for tee shots). toYd is NaN for a range without end.
type skillCell struct {
	class        transform.Class
	name         string
	lieGroup     string // "" where the class has one lie
	fromYd, toYd float64
}

// Lie groups of skill cells besides those of approach proximity.
const (
	FromRecovery = "recovery"
	OutOfReach   = "lay up or out of reach" // an approach that did not play at the green
)

var cellLieGroups = [...]string{FromFairway, FromRough, FromSand, FromRecovery}

// Ranges that the classes without yardage bands are cut into.
var (
	holeLengthEdgesYd = []float64{0, 300, 350, 400, 450, 500, 550}
	shortGameEdgesYd  = []float64{0, 10, 20, 30}
	puttEdgesFt       = []float64{0, 3, 6, 10, 15, 25, 40}
)

// skillCells are the cells of all classes, in the order of the classes. Every
// stroke of a complete hole is in exactly one.
type skillCells struct {
	all          []skillCell
	bandsYd      []float64 // from 0, the last without end
	approachFrom int
	shortFrom    int
	puttFrom     int
}

func newSkillCells(bandsYd []float64) *skillCells {
	c := &skillCells{bandsYd: bandsYd}
	if bandsYd[0] > 0 {
		c.bandsYd = append([]float64{0}, bandsYd...)
	}
	add := func(class transform.Class, lieGroup, unit string, edges []float64, i int, perYard float64) {
		cell := skillCell{class: class, lieGroup: lieGroup, fromYd: edges[i] / perYard, toYd: math.NaN()}
		span := fmt.Sprintf("%s %s and more", oneDecimal(edges[i]), unit)
		if i+1 < len(edges) {
			cell.toYd = edges[i+1] / perYard
			span = fmt.Sprintf("%s-%s %s", oneDecimal(edges[i]), oneDecimal(edges[i+1]), unit)
		}
		switch {
		case class == transform.TeeShot:
			cell.name = "tee shot, hole of " + span
		case lieGroup == "":
			cell.name = class.String() + " of " + span
		default:
			cell.name = fmt.Sprintf("%s from %s, %s", class, lieGroup, span)
		}
		c.all = append(c.all, cell)
	}
	for i := range holeLengthEdgesYd {
		add(transform.TeeShot, "", "yd", holeLengthEdgesYd, i, 1)
	}
	c.approachFrom = len(c.all)
	c.all = append(c.all, skillCell{transform.Approach, "approach, " + OutOfReach, OutOfReach, 0, math.NaN()})
	c.all = append(c.all, skillCell{transform.Approach, "approach from " + FromRecovery, FromRecovery, 0, math.NaN()})
	for _, group := range cellLieGroups[:3] {
		for i := range c.bandsYd {
			add(transform.Approach, group, "yd", c.bandsYd, i, 1)
		}
	}
	c.shortFrom = len(c.all)
	for _, group := range cellLieGroups {
		for i := range shortGameEdgesYd {
			add(transform.ShortGame, group, "yd", shortGameEdgesYd, i, 1)
		}
	}
	c.puttFrom = len(c.all)
	for i := range puttEdgesFt {
		add(transform.Putt, "", "ft", puttEdgesFt, i, 3)
	}
	return c
}

// of is the cell of a stroke on a hole of a length.
func (c *skillCells) of(s *transform.Shots, row int, holeYd float64) int {
	yards := s.ToHoleYd[row]
	group := 3 // recovery
	if lie := lieGroupOf(s.Category[row]); lie > 0 {
		group = lie - 1
	}
	switch s.Class[row] {
	case transform.TeeShot:
		return rangeOf(holeYd, holeLengthEdgesYd)
	case transform.ShortGame:
		return c.shortFrom + group*len(shortGameEdgesYd) + rangeOf(yards, shortGameEdgesYd)
	case transform.Putt:
		// Yards that feet were made into do not always come back whole.
		return c.puttFrom + rangeOf(float64(tenthsOfAFoot(yards))/10, puttEdgesFt)
	}
	switch {
	case group == 3:
		return c.approachFrom + 1
	case !s.AtGreen[row]:
		return c.approachFrom
	}
	return c.approachFrom + 2 + group*len(c.bandsYd) + rangeOf(yards, c.bandsYd)
}

// rangeOf is the last range that begins at a value or below it.
func rangeOf(value float64, edges []float64) int {
	last := len(edges) - 1
	for last > 0 && value < edges[last] {
		last--
	}
	return last
}
