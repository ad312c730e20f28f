package acceptance

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// node runs a script of the folder engines on what it reads, as JSON, and returns what it writes. A test that lacks what
// npm brings is skipped, loudly; as part of CI it fails.
func node(t *testing.T, input any, script string, args ...string) []byte {
	t.Helper()
	for _, module := range []string{"@duckdb/node-api", "@electric-sql/pglite", "dt-sql-parser"} {
		if _, err := os.Stat(filepath.Join("node_modules", module)); err != nil {
			lacks(t, "other engines", module+" is not installed (npm ci --prefix testdata/acceptance)")
		}
	}
	text, err := json.Marshal(input)
	if err != nil {
		t.Fatal(err)
	}
	run := exec.Command("node", append([]string{filepath.Join("engines", script)}, args...)...)
	run.Stdin = bytes.NewReader(text)
	var stderr bytes.Buffer
	run.Stderr = &stderr
	written, err := run.Output()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", script, args, err, stderr.String())
	}
	return written
}
