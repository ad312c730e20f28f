package store

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/apache/arrow-go/v18/parquet/compress"
)

// Outside: arrow-go's own codec, whose bytes they must be, page for page.
func TestPagesAreCompressedAsArrowCompressesThem(t *testing.T) {
	ours, err := compress.GetCodec(compress.Codecs.Zstd)
	if err != nil {
		t.Fatal(err)
	}
	arrows, ok := ours.(zstandard)
	if !ok {
		t.Fatalf("pages are compressed by %T", ours)
	}
	random := rand.New(rand.NewPCG(1, 2))
	for _, size := range []int{0, 1, 100, 3000, 200_000, pageBytes, pageBytes + 500_000} {
		page := make([]byte, size)
		for i := range page {
			page[i] = byte(random.ExpFloat64() * 3)
		}
		for _, level := range []int{zstdLevel, 9} {
			packed := ours.EncodeLevel(nil, page, level)
			if want := arrows.Codec.EncodeLevel(nil, page, level); size <= pageBytes && !bytes.Equal(packed, want) {
				t.Errorf("%d bytes become %d at level %d, in arrow-go %d", size, len(packed), level, len(want))
			}
			if back := ours.Decode(make([]byte, 0, size), packed); !bytes.Equal(back, page) {
				t.Errorf("%d bytes do not come back from level %d", size, level)
			}
		}
	}
}
