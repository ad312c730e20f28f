package plots

import (
	"cmp"
	"image"
	"image/color"
	"slices"
)

// mostColors is what a PNG with a palette holds.
const mostColors = 256

// indexed gives an opaque picture a palette: its most frequent colours, but none
// so near to a more frequent one that it can stand in for it, as near as it takes
// for the palette to hold them all. Flat colours stay as they are, shades on
// the edges of shapes move too little to be seen, and the file is a third the
// size, which a page with twenty pictures in it needs.
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
	var kept []color.RGBA
	for near := 0; kept == nil; near += 2 {
		kept = spacedOut(colors, near)
	}
	palette := make(color.Palette, len(kept))
	for i, c := range kept {
		palette[i] = c
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

// spacedOut keeps the colours that differ in some channel by more than near from
// all kept before them; nil if that leaves more than a palette holds.
func spacedOut(colors []color.RGBA, near int) []color.RGBA {
	within := func(a, b uint8) bool { return int(a)-int(b) <= near && int(b)-int(a) <= near }
	var kept []color.RGBA
	for _, c := range colors {
		if slices.ContainsFunc(kept, func(k color.RGBA) bool {
			return within(k.R, c.R) && within(k.G, c.G) && within(k.B, c.B)
		}) {
			continue
		}
		if len(kept) == mostColors {
			return nil
		}
		kept = append(kept, c)
	}
	return kept
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
