package plots

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"roundmill/metrics"
)

const (
	approachProximityName = "approach-proximity"

	fewestApproaches = 5 // under this there is no picture
	mostBandsForSand = 5 // bands up to which there is room for a third lie
)

// lieLook is how the finishes from one lie group are told from the others:
// place, name, shape and colour.
type lieLook struct {
	group string // metrics.ApproachProximity.LieGroup, and the name in the picture
	mark  shape
	fill  color.RGBA
	text  color.RGBA
}

var lieLooks = []lieLook{
	{metrics.FromFairway, circle, blue, blue},
	{metrics.FromRough, diamond, vermilion, lossText},
	{metrics.FromSand, square, purple, shade(purple, 0.68)},
}

// approachGroup is one distribution of the picture: a band and a lie.
type approachGroup struct {
	metrics.ApproachProximity
	look     lieLook
	finishes []float64 // sorted, in the units seen
}

func (g approachGroup) few() bool { return g.N < fewestSolid }

func (g approachGroup) hasInterval() bool {
	return !g.few() && !math.IsNaN(g.MedianFt+g.MedianLoFt+g.MedianHiFt)
}

// ApproachProximityChart draws where the season's approaches finished: a column
// for each yardage band with shots in it; in the column, back to back, fairway
// and rough; of each, every finish, the middle half, the median and its 90 %
// interval; under it the figures. Sand joins them where it is common enough and
// the bands are few enough. Rows of other players are left out.
// Exactly one of the results is not nil.
func ApproachProximityChart(season Season, rows []metrics.ApproachProximity) (*Chart, *Missing) {
	own := slices.DeleteFunc(slices.Clone(rows), func(row metrics.ApproachProximity) bool {
		return row.Player != season.Player || row.N == 0
	})
	groups := approachGroups(own, season.Units)
	finishes := allFinishes(groups)
	if len(finishes) < fewestApproaches {
		return nil, &Missing{approachProximityName, approachesMissing(len(finishes))}
	}
	picture := newApproachProximityPicture(season.Units, groups, approachReach(groups, finishes, season.Units))
	words := approachProximityWords{season: season, groups: groups, all: own, to: picture.to, hills: picture.hills}
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(approachProximityName, text, picture.height(), picture.draw), nil
}

// approachGroups are the groups to draw, nearest band first.
func approachGroups(rows []metrics.ApproachProximity, units Units) []approachGroup {
	var groups []approachGroup
	bands := map[float64]bool{}
	for _, row := range rows {
		i := slices.IndexFunc(lieLooks, func(look lieLook) bool { return look.group == row.LieGroup })
		if i < 0 {
			continue
		}
		finishes := make([]float64, len(row.FinishesFt))
		for j, ft := range row.FinishesFt {
			finishes[j] = units.FromFeet(ft)
		}
		groups = append(groups, approachGroup{ApproachProximity: row, look: lieLooks[i], finishes: finishes})
		bands[row.BandFromYd] = true
	}
	roomForSand := len(bands) <= mostBandsForSand && slices.ContainsFunc(groups, func(g approachGroup) bool {
		return g.LieGroup == metrics.FromSand && !g.few()
	})
	if !roomForSand {
		groups = slices.DeleteFunc(groups, func(g approachGroup) bool { return g.LieGroup == metrics.FromSand })
	}
	slices.SortStableFunc(groups, func(a, b approachGroup) int {
		return cmp.Or(cmp.Compare(a.BandFromYd, b.BandFromYd), cmp.Compare(a.look.mark, b.look.mark))
	})
	return groups
}

func allFinishes(groups []approachGroup) []float64 {
	var all []float64
	for _, group := range groups {
		all = append(all, group.finishes...)
	}
	slices.Sort(all)
	return all
}

// approachReach is where the scale ends, which starts at the hole: past the
// middle half of every group with enough shots and past 95 of 100 finishes,
// and past all of them where that takes little more.
func approachReach(groups []approachGroup, finishes []float64, units Units) float64 {
	reach := finishes[(len(finishes)-1)*95/100]
	for _, group := range groups {
		if upper := units.FromFeet(group.P75Ft); !group.few() && upper > reach {
			reach = upper
		}
	}
	if farthest := finishes[len(finishes)-1]; farthest < 1.15*reach {
		reach = farthest
	}
	step := tickStep(max(reach, 1), mostApproachTicks) / 2
	return math.Ceil(max(reach, 1)/step) * step
}

// beyond is how many of the sorted values are more than the end of a scale.
func beyond(sorted []float64, end float64) int {
	i, _ := slices.BinarySearchFunc(sorted, end, func(v, end float64) int {
		if v <= end {
			return -1
		}
		return 1
	})
	return len(sorted) - i
}
