package plots

import (
	"image/color"

	"gonum.org/v1/plot/vg"
)

// The house style. A chart is 8 in wide at 200 dpi whatever it shows, and as
// high as its rows need. On A4 between 15 mm margins that is nine tenths of
// its size, so that the smallest type below still prints at more than 8 pt.
const (
	dotsPerInch = 200
	chartWidth  = 8 * vg.Inch
	margin      = vg.Length(20)
)

// Colours of Okabe and Ito (2008), Color Universal Design, and their tints on
// white; ink and grey pass 4.5 to 1 on white and serve for text.
var (
	ink      = color.RGBA{0x22, 0x24, 0x28, 0xff}
	grey     = color.RGBA{0x5c, 0x61, 0x68, 0xff}
	paleGrey = color.RGBA{0x9a, 0x9f, 0xa6, 0xff}
	hairline = color.RGBA{0xe2, 0xe4, 0xe7, 0xff}

	blue        = color.RGBA{0x00, 0x72, 0xb2, 0xff}
	vermilion   = color.RGBA{0xd5, 0x5e, 0x00, 0xff}
	bluishGreen = color.RGBA{0x00, 0x9e, 0x73, 0xff}
	purple      = color.RGBA{0xcc, 0x79, 0xa7, 0xff}
)

// Colours of text that stands for a gain or a loss.
var (
	gainText = blue
	lossText = shade(vermilion, 0.82)
)

// tint mixes a colour with white; strength 1 is the colour itself.
func tint(c color.RGBA, strength float64) color.RGBA {
	mix := func(channel uint8) uint8 {
		return uint8(255 - strength*(255-float64(channel)) + 0.5)
	}
	return color.RGBA{mix(c.R), mix(c.G), mix(c.B), 0xff}
}

// translucent lets what is below shine through, for bands that cross a grid.
func translucent(c color.RGBA, opacity float64) color.NRGBA {
	return color.NRGBA{c.R, c.G, c.B, uint8(255*opacity + 0.5)}
}

// shade darkens a colour to serve as text; strength 1 is the colour itself.
func shade(c color.RGBA, strength float64) color.RGBA {
	mix := func(channel uint8) uint8 { return uint8(strength*float64(channel) + 0.5) }
	return color.RGBA{mix(c.R), mix(c.G), mix(c.B), 0xff}
}

// Type styles; nothing is set smaller than quiet.
var (
	heading    = typeStyle{size: 16.5, bold: true, color: ink}
	body       = typeStyle{size: 10.5, color: ink}
	strong     = typeStyle{size: 10.5, bold: true, color: ink}
	quiet      = typeStyle{size: 9.5, color: grey}
	valueLabel = typeStyle{size: 11.5, bold: true, color: ink, halo: true}
)

// frame is the text around a chart, broken into lines.
type frame struct {
	title   []string
	counted []string
	source  []string
}

const (
	aboveTitle   = vg.Length(14)
	belowTitle   = vg.Length(4)
	belowCounted = vg.Length(12)
	aboveSource  = vg.Length(14)
	belowSource  = vg.Length(12)
)

const (
	lineWidth = chartWidth - 2*margin
	mostLines = 3 // of a title, and of a paragraph
)

// framed breaks the words around a chart into lines. Each string of counted
// and source starts a new line.
func framed(text chartText) frame {
	lines := func(paragraphs []string) []string {
		var all []string
		for _, paragraph := range paragraphs {
			all = append(all, wrapped(paragraph, quiet.face(), lineWidth, mostLines)...)
		}
		return all
	}
	return frame{title: titleLines(text.title, heading.face(), lineWidth, mostLines), counted: lines(text.counted), source: lines(text.source)}
}

// head is the height above the chart's own part.
func (f frame) head() vg.Length {
	return aboveTitle + heading.size*leading*vg.Length(len(f.title)) + belowTitle +
		quiet.size*leading*vg.Length(len(f.counted)) + belowCounted
}

// foot is the height below the chart's own part.
func (f frame) foot() vg.Length {
	return aboveSource + quiet.size*leading*vg.Length(len(f.source)) + belowSource
}

// draw sets the words around the chart.
func (f frame) draw(c *canvas) {
	y := aboveTitle
	set := func(lines []string, style typeStyle) {
		for _, line := range lines {
			c.text(margin, y+style.size, fromLeft, style, line)
			y += style.size * leading
		}
	}
	set(f.title, heading)
	y += belowTitle
	set(f.counted, quiet)
	y = c.height - f.foot() + aboveSource
	set(f.source, quiet)
}
