package plots

import (
	"image"
	"image/color"
	"math"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
)

// canvas is a picture being drawn. Places are in points from the top left
// corner, x to the right and y downwards, as the eye goes through a page.
type canvas struct {
	image         *vgimg.Canvas
	width, height vg.Length
	faces         map[font.Font]xfont.Face
	labels        []label // every text drawn, for the tests of layout
}

// label is a text on the canvas and the box its glyphs fill.
type label struct {
	text                     string
	left, top, right, bottom vg.Length
}

func newCanvas(width, height vg.Length, dotsPerInch int) *canvas {
	return &canvas{
		image: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(dotsPerInch), vgimg.UseBackgroundColor(color.White)),
		width: width, height: height,
		faces: map[font.Font]xfont.Face{},
	}
}

func (c *canvas) pixels() *image.RGBA { return c.image.Image().(*image.RGBA) }

func (c *canvas) at(x, y vg.Length) vg.Point { return vg.Point{X: x, Y: c.height - y} }

// align says which end of a text its x belongs to.
type align float64

const (
	fromLeft  align = 0
	centred   align = 0.5
	fromRight align = 1
)

// typeStyle is how a text looks.
type typeStyle struct {
	size  vg.Length
	bold  bool
	color color.Color
	halo  bool // a white ground, for text that crosses lines
}

func (t typeStyle) face() font.Face {
	if t.bold {
		return face(t.size, xfont.WeightBold)
	}
	return face(t.size, xfont.WeightNormal)
}

// in is the style in another colour.
func (t typeStyle) in(c color.Color) typeStyle {
	t.color = c
	return t
}

// onWhite is the style with a white ground, for text that crosses lines.
func (t typeStyle) onWhite() typeStyle {
	t.halo = true
	return t
}

// middle is how far the baseline lies below the middle of the capitals.
func (t typeStyle) middle() vg.Length { return t.size * capHeight / 2 }

// text draws one line with its baseline at y.
func (c *canvas) text(x, y vg.Length, a align, style typeStyle, text string) {
	if text == "" {
		return
	}
	f := style.face()
	width := f.Width(text)
	x -= vg.Length(a) * width
	c.labels = append(c.labels, label{
		text: text, left: x, right: x + width,
		top: y - capHeight*style.size, bottom: y + descent*style.size,
	})
	if style.halo {
		const rim = vg.Length(1.4)
		c.rectangle(x-rim, y-capHeight*style.size-rim, x+width+rim, y+rim, color.White)
	}
	// The canvas has a FillString, which transforms letter by letter and takes
	// a quarter of the time of a chart.
	letters := xfont.Drawer{
		Dst: c.pixels(), Src: image.NewUniform(style.color), Face: c.letters(f),
		Dot: fixed.Point26_6{X: c.fixedDots(x), Y: c.fixedDots(y)},
	}
	letters.DrawString(text)
}

// letters are those of a face at the resolution of the canvas.
func (c *canvas) letters(f font.Face) xfont.Face {
	letters := c.faces[f.Font]
	if letters == nil {
		letters = f.FontFace(c.image.DPI())
		c.faces[f.Font] = letters
	}
	return letters
}

func (c *canvas) fixedDots(length vg.Length) fixed.Int26_6 {
	return fixed.Int26_6(math.Round(64 * length.Dots(c.image.DPI())))
}

// line draws a straight line.
func (c *canvas) line(x0, y0, x1, y1, width vg.Length, stroke color.Color) {
	var path vg.Path
	path.Move(c.at(x0, y0))
	path.Line(c.at(x1, y1))
	c.stroke(path, width, stroke)
}

// polyline draws a line through places, one after the other.
func (c *canvas) polyline(places []vg.Point, width vg.Length, stroke color.Color) {
	c.stroke(c.pathThrough(places), width, stroke)
}

func (c *canvas) pathThrough(places []vg.Point) (path vg.Path) {
	for i, place := range places {
		if i == 0 {
			path.Move(c.at(place.X, place.Y))
		} else {
			path.Line(c.at(place.X, place.Y))
		}
	}
	return path
}

// rectangle fills the box between two corners.
func (c *canvas) rectangle(x0, y0, x1, y1 vg.Length, fill color.Color) {
	c.polygon([]vg.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}, fill)
}

// polygon fills a shape given by its corners.
func (c *canvas) polygon(corners []vg.Point, fill color.Color) {
	path := c.pathThrough(corners)
	path.Close()
	c.image.SetColor(fill)
	c.image.Fill(path)
}

// shape is the form of a mark, so that colour never tells groups apart alone.
type shape int

const (
	circle shape = iota
	diamond
	square
)

// outline is a shape around a place; all shapes of one diameter weigh the same
// to the eye.
func (c *canvas) outline(s shape, x, y, diameter vg.Length) vg.Path {
	var path vg.Path
	centre := c.at(x, y)
	corners := func(radius vg.Length, turn float64) {
		for i := range 4 {
			sin, cos := math.Sincos(turn + math.Pi/2*float64(i))
			corner := vg.Point{X: centre.X + radius*vg.Length(cos), Y: centre.Y + radius*vg.Length(sin)}
			if i == 0 {
				path.Move(corner)
			} else {
				path.Line(corner)
			}
		}
	}
	switch s {
	case circle:
		path.Move(vg.Point{X: centre.X + diameter/2, Y: centre.Y})
		path.Arc(centre, diameter/2, 0, 2*math.Pi)
	case diamond:
		corners(0.63*diameter, 0)
	case square:
		corners(0.63*diameter, math.Pi/4)
	}
	path.Close()
	return path
}

// mark fills a shape; a rim of more than zero is drawn around it first.
func (c *canvas) mark(s shape, x, y, diameter vg.Length, fill color.Color, rim vg.Length, rimColor color.Color) {
	if rim > 0 {
		c.image.SetColor(rimColor)
		c.image.Fill(c.outline(s, x, y, diameter+2*rim))
	}
	c.image.SetColor(fill)
	c.image.Fill(c.outline(s, x, y, diameter))
}

// ring draws a shape hollow, its outer edge at the diameter.
func (c *canvas) ring(s shape, x, y, diameter, width vg.Length, stroke color.Color) {
	c.stroke(c.outline(s, x, y, diameter-width), width, stroke)
}

func (c *canvas) stroke(path vg.Path, width vg.Length, stroke color.Color) {
	c.image.SetColor(stroke)
	c.image.SetLineWidth(width)
	c.image.Stroke(path)
}
