package plots

import (
	"cmp"
	"image"
	"image/color"
	"slices"
)

// mostColors is what a PNG with a palette holds.
const mostColors = 256

// indexed gives an opaque picture a palette of its most frequent colours, the
// nearest of them to every pixel. Flat colours stay as they are and only rare
// shades on the edges of shapes move a little; the file is a third the size,
// which a page with twenty pictures in it needs.
func indexed(picture *image.RGBA) *image.Paletted {
	counts := map[color.RGBA]int{}
	eachRun(picture, func(c color.RGBA, length int) { counts[c] += length })
	colors := make([]color.RGBA, 0, len(counts))
	for c := range counts {
		colors = append(colors, c)
	}
	slices.SortFunc(colors, func(a, b color.RGBA) int {
		return cmp.Or(cmp.Compare(counts[b], counts[a]), cmp.Compare(a.R, b.R), cmp.Compare(a.G, b.G), cmp.Compare(a.B, b.B))
	})
	palette := make(color.Palette, 0, mostColors)
	for _, c := range colors[:min(len(colors), mostColors)] {
		palette = append(palette, c)
	}
	nearest := make(map[color.RGBA]uint8, len(colors))
	for _, c := range colors {
		nearest[c] = uint8(palette.Index(c))
	}
	out := image.NewPaletted(picture.Bounds(), palette)
	at := 0
	eachRun(picture, func(c color.RGBA, length int) {
		index := nearest[c]
		for range length {
			out.Pix[at] = index
			at++
		}
	})
	return out
}

// eachRun goes through the pixels row by row, in runs of one colour.
func eachRun(picture *image.RGBA, do func(c color.RGBA, length int)) {
	var run color.RGBA
	length := 0
	for i := 0; i < len(picture.Pix); i += 4 {
		c := color.RGBA{picture.Pix[i], picture.Pix[i+1], picture.Pix[i+2], picture.Pix[i+3]}
		if c != run && length > 0 {
			do(run, length)
			length = 0
		}
		run = c
		length++
	}
	if length > 0 {
		do(run, length)
	}
}
