package store

import (
	"runtime"
	"sync"

	"github.com/apache/arrow-go/v18/parquet/compress"
	"github.com/klauspost/compress/zstd"
)

const (
	zstdLevel = 1 // of all tables
	// pageBytes is the longest page that is compressed in one window: a row group of numbers takes less.
	pageBytes = 1 << 20
)

func init() {
	usual, err := compress.GetCodec(compress.Codecs.Zstd)
	if err != nil {
		panic(err)
	}
	compress.RegisterCodec(compress.Codecs.Zstd, zstandard{usual})
}

// zstandard is the codec of arrow-go, with encoders that stay: arrow-go's are let go of by every other garbage
// collection, and each takes eight megabytes anew. What they write is the same.
type zstandard struct{ compress.Codec }

var encoders = sync.OnceValue(func() *zstd.Encoder {
	encoder, err := zstd.NewWriter(nil, zstd.WithEncoderLevel(zstd.EncoderLevelFromZstd(zstdLevel)), zstd.WithWindowSize(pageBytes),
		zstd.WithEncoderConcurrency(runtime.GOMAXPROCS(0)), zstd.WithZeroFrames(true), zstd.WithAllLitEntropyCompression(true))
	if err != nil {
		panic(err)
	}
	return encoder
})

// EncodeLevel compresses a page of a table.
func (z zstandard) EncodeLevel(into, page []byte, level int) []byte {
	if level != zstdLevel {
		return z.Codec.EncodeLevel(into, page, level)
	}
	return encoders().EncodeAll(page, into[:0])
}
