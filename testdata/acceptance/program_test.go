package acceptance

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// program is the command, built once for all tests; generator writes invented seasons.
var program, generator string

func TestMain(m *testing.M) {
	os.Exit(func() int {
		folder, err := os.MkdirTemp("", "roundmill-acceptance-")
		if err != nil {
			panic(err)
		}
		defer os.RemoveAll(folder)
		program, generator = filepath.Join(folder, "roundmill"), filepath.Join(folder, "generate")
		for binary, source := range map[string]string{program: ".", generator: "./testdata/demo/generate"} {
			build := exec.Command("go", "build", "-o", binary, source)
			build.Dir = filepath.Join("..", "..")
			if said, err := build.CombinedOutput(); err != nil {
				os.Stderr.Write(said)
				return 1
			}
		}
		return m.Run()
	}())
}

// run runs the program on a season and returns the folder of its results.
func run(t *testing.T, s season, extra ...string) string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "out")
	args := append([]string{"--quiet", "--out", out}, s.args...)
	if s.log != "" && s.sourceFile == "" {
		args = append(args, s.log)
	}
	command := exec.Command(program, append(args, extra...)...)
	var stderr bytes.Buffer
	command.Stderr = &stderr
	if err := command.Run(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, stderr.String())
	}
	return out
}
