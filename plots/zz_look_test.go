package plots

import (
	"fmt"
	"os"
	"testing"
)

func TestLook(t *testing.T) {
	os.MkdirAll("/tmp/look", 0o755)
	for _, s := range situations() {
		for _, chart := range s.charts() {
			f, _ := os.Create("/tmp/look/" + chart.Name + "-" + s.name + ".png")
			if err := chart.WritePNG(f); err != nil {
				t.Fatal(err)
			}
			f.Close()
			fmt.Println(s.name, chart.Width, chart.Height, chart.Title, "\n   ", chart.Alt)
		}
	}
}
