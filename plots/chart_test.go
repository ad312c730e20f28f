package plots

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

func TestThePictureCarriesItsSizeAndResolution(t *testing.T) {
	chart := situations()[0].charts()[0]
	var drawn bytes.Buffer
	if err := chart.WritePNG(&drawn); err != nil {
		t.Fatal(err)
	}
	picture := decoded(t, drawn.Bytes())
	if size := picture.Bounds().Size(); size != (image.Point{X: chart.Width, Y: chart.Height}) || size.X != 1600 {
		t.Errorf("the picture is %v, the chart says %d by %d, and 8 in at 200 dpi are 1600", size, chart.Width, chart.Height)
	}
	at := bytes.Index(drawn.Bytes(), []byte("pHYs"))
	if at < 0 {
		t.Fatal("there is no pHYs chunk")
	}
	chunk := drawn.Bytes()[at:]
	if x, y, unit := binary.BigEndian.Uint32(chunk[4:]), binary.BigEndian.Uint32(chunk[8:]), chunk[12]; x != 7874 || y != 7874 || unit != 1 {
		t.Errorf("%d by %d pixels a unit, unit %d; want 7874 a metre (200 / 0.0254)", x, y, unit)
	}
	if got, want := binary.BigEndian.Uint32(chunk[13:]), crc32.ChecksumIEEE(chunk[:13]); got != want {
		t.Errorf("checksum %x, want %x", got, want)
	}
}

func TestChartsDrawnSideBySideAreTheSame(t *testing.T) {
	charts := situations()[0].charts()
	var alone [2]bytes.Buffer
	for i, chart := range charts {
		if err := chart.WritePNG(&alone[i]); err != nil {
			t.Fatal(err)
		}
	}
	var together [4]bytes.Buffer
	var group sync.WaitGroup
	for i := range together {
		group.Go(func() {
			if err := charts[i%2].WritePNG(&together[i]); err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
	for i := range together {
		if !bytes.Equal(together[i].Bytes(), alone[i%2].Bytes()) {
			t.Errorf("%s came out differently", charts[i%2].Name)
		}
	}
}

type full struct{}

var errFull = errors.New("no space left")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAFailingWriterIsReported(t *testing.T) {
	if err := situations()[0].charts()[1].WritePNG(full{}); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

func TestTheFiguresHandedInAreLeftAsTheyWere(t *testing.T) {
	s, untouched := situations()[0], situations()[0]
	s.charts()
	if diff := cmp.Diff(untouched.approaches, s.approaches, cmpopts.EquateNaNs()); diff != "" {
		t.Errorf("the rows of approaches were changed (-before +after):\n%s", diff)
	}
	if diff := cmp.Diff(untouched.gains, s.gains, cmpopts.EquateNaNs()); diff != "" {
		t.Errorf("the rows of strokes gained were changed (-before +after):\n%s", diff)
	}
}

func TestAPaletteKeepsFlatColoursAndMovesRareOnesLittle(t *testing.T) {
	for _, chart := range situations()[0].charts() {
		c := newCanvas(chart.widthPt, chart.heightPt, dotsPerInch)
		chart.draw(c)
		full := c.pixels()
		reduced := indexed(full)
		for _, flat := range []color.RGBA{{0xff, 0xff, 0xff, 0xff}, ink} {
			if got := reduced.Palette.Convert(flat); got != flat {
				t.Errorf("%s: %v became %v", chart.Name, flat, got)
			}
		}
		const visible = 12
		for i, index := range reduced.Pix {
			is := reduced.Palette[index].(color.RGBA)
			was := color.RGBA{full.Pix[4*i], full.Pix[4*i+1], full.Pix[4*i+2], full.Pix[4*i+3]}
			if apart(uint32(is.R), uint32(was.R)) > visible || apart(uint32(is.G), uint32(was.G)) > visible || apart(uint32(is.B), uint32(was.B)) > visible {
				t.Fatalf("%s: %v became %v", chart.Name, was, is)
			}
		}
	}
}

func BenchmarkChart(b *testing.B) {
	for _, s := range situations() {
		if s.name != "usual" && s.name != "thousands-a-cell" {
			continue
		}
		for i, name := range []string{"approach-proximity", "strokes-gained"} {
			b.Run(name+"/"+s.name, func(b *testing.B) {
				var drawn bytes.Buffer
				for b.Loop() {
					drawn.Reset()
					if err := s.charts()[i].WritePNG(&drawn); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(drawn.Len()), "bytes/picture")
			})
		}
	}
}
