// Package plots draws finished figures: one file per chart, one style for all.
// It computes no figure. A chart is laid out when it is made and drawn when it
// is written; charts share nothing that changes, so they may be written side by
// side, and the same figures give the same bytes.
package plots

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
	"io"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// Chart is a picture that can be written.
type Chart struct {
	Name          string // file name without .png
	Title         string // the finding, or the question where it is open
	Alt           string // what the picture shows, in words and figures
	Width, Height int    // pixels, at 200 to the inch

	widthPt, heightPt vg.Length
	draw              func(*canvas)
}

// Missing says why there is no chart: too little to show. A chart is never
// drawn empty.
type Missing struct {
	Name   string // of the chart that is not there
	Reason string // a sentence
}

// chartText is what is written around a chart, and for who cannot see it.
type chartText struct {
	title   string
	counted []string // what was counted and how to read it, under the title
	source  []string // at the foot
	alt     string   // what the picture shows beyond the title, in sentences
}

// laidOut finishes a chart: the frame around a body of the given height.
// drawBody gets the y of the body's upper edge.
func laidOut(name string, text chartText, bodyHeight vg.Length, drawBody func(c *canvas, top vg.Length)) *Chart {
	around := framed(text)
	alt := strings.TrimRight(text.title, "?.") + ". " + text.alt
	height := around.head() + bodyHeight + around.foot()
	pixels := func(length vg.Length) int { return int(length.Dots(dotsPerInch) + 0.5) }
	return &Chart{
		Name: name, Title: text.title, Alt: strings.ReplaceAll(alt, NoBreak, " "),
		Width: pixels(chartWidth), Height: pixels(height),
		widthPt: chartWidth, heightPt: height,
		draw: func(c *canvas) {
			around.draw(c)
			drawBody(c, around.head())
		},
	}
}

// WritePNG draws the chart. The picture carries its resolution, so that it
// comes out 8 in wide on a slide.
func (chart *Chart) WritePNG(w io.Writer) error {
	drawn := newCanvas(chart.widthPt, chart.heightPt, dotsPerInch)
	chart.draw(drawn)
	var encoded bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestSpeed} // a tenth larger, a chart in three quarters of the time
	if err := encoder.Encode(&encoded, indexed(drawn.pixels())); err != nil {
		return err
	}
	_, err := w.Write(withResolution(encoded.Bytes(), dotsPerInch))
	return err
}

// withResolution adds a pHYs chunk behind the header of a PNG (W3C, Portable
// Network Graphics, section 11.3.4.3), which the encoder does not write.
func withResolution(picture []byte, perInch float64) []byte {
	const headerEnd = 8 + 4 + 4 + 13 + 4 // signature, and IHDR: length, name, data, checksum
	perMetre := uint32(math.Round(perInch / 0.0254))
	chunk := binary.BigEndian.AppendUint32([]byte("pHYs"), perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	const unitIsMetre = 1
	chunk = append(chunk, unitIsMetre)
	var out []byte
	out = append(out, picture[:headerEnd]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(chunk)-4))
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, picture[headerEnd:]...)
}
