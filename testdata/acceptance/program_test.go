package acceptance

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

// program is the command and generate the writer of invented seasons, both built once for all tests, into scratch.
var program, generate, scratch string

func TestMain(m *testing.M) { os.Exit(buildAndRun(m)) }

func buildAndRun(m *testing.M) int {
	var err error
	if scratch, err = os.MkdirTemp("", "roundmill-acceptance-"); err != nil {
		panic(err)
	}
	defer os.RemoveAll(scratch)
	program, generate = filepath.Join(scratch, "roundmill"), filepath.Join(scratch, "generate")
	for binary, source := range map[string]string{program: ".", generate: "./testdata/demo/generate"} {
		if said, err := goTool("build", "-o", binary, source).CombinedOutput(); err != nil {
			os.Stderr.Write(said)
			return 1
		}
	}
	return m.Run()
}

// goTool is the go command in the program's own module, for which no C is compiled.
func goTool(args ...string) *exec.Cmd {
	tool := exec.Command("go", args...)
	tool.Dir = filepath.Join("..", "..")
	tool.Env = append(os.Environ(), "CGO_ENABLED=0")
	return tool
}

// needs skips a test that lacks a program, loudly; as part of CI it fails.
func needs(t *testing.T, toKnow string, programs ...string) {
	t.Helper()
	for _, program := range programs {
		if _, err := exec.LookPath(program); err != nil {
			lacks(t, toKnow, program+" is not installed")
		}
	}
}

func lacks(t *testing.T, toKnow, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s, and CI must not skip this test", what)
	}
	t.Skipf("SKIPPED: %s, so NOTHING IS KNOWN about %s", what, toKnow)
}

// command runs a program in a folder and fails the test unless it succeeds.
func command(t *testing.T, folder, program string, args ...string) {
	t.Helper()
	run := exec.Command(program, args...)
	run.Dir = folder
	var stderr bytes.Buffer
	run.Stderr = &stderr
	if err := run.Run(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, stderr.String())
	}
}

// run runs the command on a season, in the folder of its log, and returns the folder of results.
func (s season) run(t *testing.T, extra ...string) (out string) {
	t.Helper()
	out = filepath.Join(t.TempDir(), "out")
	command(t, filepath.Dir(s.log), program, s.commandLine(out, extra...)...)
	return out
}

// commandLine is that of a run in the folder of the log.
func (s season) commandLine(out string, extra ...string) []string {
	args := append([]string{"--quiet", "--out", out}, s.args...)
	args = append(args, extra...)
	if s.sourceFile == "" {
		args = append(args, filepath.Base(s.log))
	}
	return args
}

// generated is a season of invented players, written once.
func generated(t *testing.T, players, rounds, seed int) season {
	t.Helper()
	name := strconv.Itoa(players) + " players, " + strconv.Itoa(rounds) + " rounds, seed " + strconv.Itoa(seed)
	log := filepath.Join(scratch, "season-"+strconv.Itoa(players)+"-"+strconv.Itoa(rounds)+"-"+strconv.Itoa(seed)+".csv")
	if _, err := os.Stat(log); err != nil {
		command(t, ".", generate, "--players", strconv.Itoa(players), "--rounds", strconv.Itoa(rounds),
			"--seed", strconv.Itoa(seed), "--out", log)
	}
	return season{name: name, log: log, args: []string{"--no-charts"}}
}
