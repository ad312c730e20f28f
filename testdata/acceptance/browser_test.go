package acceptance

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// axeVersion is that of axe-core, whose rules judge accessibility.
const axeVersion = "axe-core@4.14.1"

// axe is the source of axe-core, fetched by npm into the scratch folder.
var axe = sync.OnceValues(func() (string, error) {
	folder := filepath.Join(scratch, "axe")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", err
	}
	install := exec.Command("npm", "install", "--prefix", folder, "--no-save", "--ignore-scripts", "--no-audit", "--no-fund", axeVersion)
	if said, err := install.CombinedOutput(); err != nil {
		os.Stderr.Write(said)
		return "", err
	}
	source, err := os.ReadFile(filepath.Join(folder, "node_modules", "axe-core", "axe.min.js"))
	return string(source), err
})

// browser is a headless Chromium with a window for one page, and what it had to
// complain of.
type browser struct {
	context.Context
	t    *testing.T
	lock sync.Mutex
	said []string // console messages, exceptions, requests off the file
}

func openBrowser(t *testing.T) *browser {
	t.Helper()
	needs(t, "the page in a browser", "chromium", "npm")
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal(err)
	}
	allocator, stop := chromedp.NewExecAllocator(context.Background(), append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox)...)
	t.Cleanup(stop)
	window, closeWindow := chromedp.NewContext(allocator)
	t.Cleanup(closeWindow)
	b := &browser{Context: window, t: t}
	if err := chromedp.Listen(window, b.listen); err != nil {
		t.Fatal(err)
	}
	call(b, network.Enable, network.EnableParams{})
	call(b, log.Enable, cdp.Empty{})
	return b
}

// listen notes whatever a quiet page would not do.
func (b *browser) listen(event any) {
	complaint := ""
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		complaint = "console " + string(e.Type)
		for _, arg := range e.Args {
			complaint += " " + string(arg.Value)
		}
	case *runtime.EventExceptionThrown:
		complaint = "exception " + e.ExceptionDetails.Text
	case *log.EventEntryAdded:
		complaint = "log " + e.Entry.Text
	case *network.EventRequestWillBeSent:
		if url := e.Request.URL; !strings.HasPrefix(url, "file:") && !strings.HasPrefix(url, "data:") {
			complaint = "request " + url
		}
	}
	if complaint != "" {
		b.lock.Lock()
		b.said = append(b.said, complaint)
		b.lock.Unlock()
	}
}

// complaints are what was noted so far.
func (b *browser) complaints() []string {
	b.lock.Lock()
	defer b.lock.Unlock()
	return slices.Clone(b.said)
}

// call sends a command of the DevTools protocol.
func call[P any](b *browser, command cdp.Command[P, cdp.Empty], params P) {
	b.t.Helper()
	if _, err := chromedp.Call(b, command, params); err != nil {
		b.t.Fatal(err)
	}
}

// result is what an action comes to.
func result[R any](b *browser, action chromedp.Action[R]) R {
	b.t.Helper()
	made, err := chromedp.Run(b, action)
	if err != nil {
		b.t.Fatal(err)
	}
	return made
}

// open opens a file in a window of a width.
func (b *browser) open(file string, width int64) {
	b.t.Helper()
	const height, telephone = 900, 500
	call(b, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: height, DeviceScaleFactor: 1, Mobile: width < telephone})
	result(b, chromedp.Navigate("file://"+file))
}

// ask is the answer of an expression about the page.
func ask[R any](b *browser, expression string) R {
	b.t.Helper()
	return result(b, chromedp.Evaluate[R](expression, chromedp.EvalAwaitPromise))
}
