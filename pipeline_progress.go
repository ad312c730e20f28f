package main

import (
	"io"
	"os"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"

	"roundmill/ingest"
	"roundmill/ingest/ordered"
)

// showProgress shows on a terminal, past one second, how much of the input has
// been read. The function it returns ends that.
func showProgress(s *settings, reader *ingest.Reader, stderr io.Writer) (stop func() error) {
	terminal, ok := stderr.(*os.File)
	if !ok || s.quiet || !term.IsTerminal(int(terminal.Fd())) {
		return func() error { return nil }
	}
	ended := make(chan struct{})
	group := ordered.NewGroup(1)
	group.Go(func() error {
		select {
		case <-ended:
			return nil
		case <-time.After(time.Second):
		}
		_, total := reader.Progress()
		bar := progressbar.NewOptions64(total, progressbar.OptionSetWriter(stderr), progressbar.OptionShowBytes(true),
			progressbar.OptionSetDescription("reading"), progressbar.OptionClearOnFinish(), progressbar.OptionFullWidth())
		defer bar.Finish()
		for {
			read, _ := reader.Progress()
			bar.Set64(min(read, total))
			select {
			case <-ended:
				return nil
			case <-time.After(200 * time.Millisecond):
			}
		}
	})
	return func() error {
		close(ended)
		return group.Wait()
	}
}
