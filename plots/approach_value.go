package plots

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const approachValueName = "approach-value"

// valueLies are the rows of the grid, by metrics.ApproachProximity.LieGroup.
var valueLies = []string{metrics.FromFairway, metrics.FromRough, metrics.FromSand, metrics.AllLies}

// valueCell is one square of the grid: approaches from a band and a lie.
type valueCell struct {
	metrics.ApproachProximity
	gain // an approach
}

func newValueCell(row metrics.ApproachProximity) valueCell {
	return valueCell{row, gainOf(row.StrokesGainedPer, row.StrokesGainedLo, row.StrokesGainedHi, row.N >= fewestSolid)}
}

func (v valueCell) few() bool { return v.N < fewestSolid }

// ApproachValueChart draws strokes gained an approach as a grid of yardage
// bands by lies: value and count in every cell, filled where its 90 % interval
// is clear of zero, pale where it spans zero, hollow under ten shots. Rows of
// other players are left out. Exactly one of the results is not nil.
func ApproachValueChart(season Season, rows []metrics.ApproachProximity) (*Chart, *Missing) {
	var cells []valueCell
	approaches := 0
	for _, row := range rows {
		if row.Player != season.Player || row.N == 0 || math.IsNaN(row.StrokesGainedPer) || !slices.Contains(valueLies, row.LieGroup) {
			continue
		}
		cells = append(cells, newValueCell(row))
		if row.LieGroup == metrics.AllLies {
			approaches += int(row.N)
		}
	}
	if len(cells) == 0 {
		return nil, &Missing{approachValueName, "No approach has a lie, a distance and a finish that strokes gained can be counted from."}
	}
	slices.SortStableFunc(cells, func(a, b valueCell) int {
		return cmp.Or(cmp.Compare(slices.Index(valueLies, a.LieGroup), slices.Index(valueLies, b.LieGroup)), cmp.Compare(a.BandFromYd, b.BandFromYd))
	})
	words := approachValueWords{season: season, cells: cells, approaches: approaches}
	picture := newValuePicture(season.Units, cells)
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(approachValueName, text, picture.height(), picture.draw), nil
}

// valuePicture is the layout of the grid: lies from top to bottom, bands from
// left to right. More bands than fit go on in further tiers below.
type valuePicture struct {
	units Units
	cells []valueCell
	lies  []string
	tiers [][]valueBand
	most  float64 // strokes an approach that have the fullest colour
}

type valueBand struct{ fromYd, toYd float64 }

const (
	valueStart     = vg.Length(82)
	valueHeads     = vg.Length(20)
	valueHeight    = vg.Length(42)
	valueGap       = vg.Length(3)
	widestValue    = vg.Length(90)
	valueAllApart  = vg.Length(10) // before the row of all lies
	valueTierApart = vg.Length(18)
)

func newValuePicture(units Units, cells []valueCell) valuePicture {
	p := valuePicture{units: units, cells: cells, most: 0.1}
	var bands []valueBand
	for _, cell := range cells {
		if !slices.Contains(p.lies, cell.LieGroup) {
			p.lies = append(p.lies, cell.LieGroup)
		}
		if band := (valueBand{cell.BandFromYd, cell.BandToYd}); !slices.Contains(bands, band) {
			bands = append(bands, band)
		}
		if cell.clear() {
			p.most = max(p.most, math.Abs(cell.value))
		}
	}
	slices.SortFunc(bands, func(a, b valueBand) int { return cmp.Compare(a.fromYd, b.fromYd) })
	tiers := (len(bands) + mostBandsInTier - 1) / mostBandsInTier
	p.tiers = slices.Collect(slices.Chunk(bands, (len(bands)+tiers-1)/tiers))
	return p
}

func (p valuePicture) tierHeight() vg.Length {
	return valueHeads + vg.Length(len(p.lies))*(valueHeight+valueGap) - valueGap + valueAllApart
}

func (p valuePicture) height() vg.Length {
	n := vg.Length(len(p.tiers))
	return n*p.tierHeight() + (n-1)*valueTierApart
}

func (p valuePicture) draw(c *canvas, top vg.Length) {
	pitch := min((bandsEnd-valueStart)/vg.Length(len(p.tiers[0])), widestValue)
	for _, bands := range p.tiers {
		c.text(margin, top+valueHeads-8, fromLeft, quiet, p.units.Long()+" out")
		for i, band := range bands {
			c.text(valueStart+pitch*(vg.Length(i)+0.5), top+valueHeads-8, centred, strong, p.units.Band(band.fromYd, band.toYd))
		}
		y := top + valueHeads
		for _, lie := range p.lies {
			name := Sentence(lie)
			if lie == metrics.AllLies {
				y += valueAllApart
				name = "All lies"
			}
			c.text(margin, y+valueHeight/2+strong.middle(), fromLeft, strong, name)
			for i, band := range bands {
				left := valueStart + pitch*vg.Length(i) + valueGap/2
				p.drawCell(c, lie, band, left, y, left+pitch-valueGap, y+valueHeight)
			}
			y += valueHeight + valueGap
		}
		top += p.tierHeight() + valueTierApart
	}
}

func (p valuePicture) drawCell(c *canvas, lie string, band valueBand, left, top, right, bottom vg.Length) {
	middle := (left + right) / 2
	i := slices.IndexFunc(p.cells, func(v valueCell) bool { return v.LieGroup == lie && v.BandFromYd == band.fromYd })
	if i < 0 {
		c.text(middle, (top+bottom)/2+body.middle(), centred, body.in(grey), "–")
		return
	}
	cell := p.cells[i]
	value := body.in(grey)
	switch {
	case cell.few():
		c.rectangle(left, top, right, bottom, hairline)
		c.rectangle(left+0.8, top+0.8, right-0.8, bottom-0.8, color.White)
	case cell.clear():
		value = strong
		c.rectangle(left, top, right, bottom, p.fill(cell))
	default:
		c.rectangle(left, top, right, bottom, tint(grey, 0.09))
	}
	c.text(middle, top+18, centred, value, cell.printed())
	c.text(middle, top+33, centred, quiet.in(value.color.(color.RGBA)), compact(int(cell.N), 4))
}

// fill is the stronger the more an approach gains or loses.
func (p valuePicture) fill(cell valueCell) color.RGBA {
	full, _ := cell.colours()
	return tint(full, 0.18+0.42*math.Abs(cell.value)/p.most)
}
