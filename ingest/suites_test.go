package ingest

import (
	"os"
	"testing"
)

// suites is the folder of suites from outside. Without it a test skips loudly,
// except where everything is to be checked.
func suites(t *testing.T) string {
	t.Helper()
	folder := os.Getenv("ROUNDMILL_SUITES")
	switch {
	case folder != "":
		return folder
	case os.Getenv("CI") == "true":
		t.Fatal("ROUNDMILL_SUITES is not set, and CI is true: the suites from outside must run")
	}
	t.Skip("LOUD: ROUNDMILL_SUITES is not set; a suite from outside was not run")
	return ""
}
