//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// Where nothing larger than some kilobytes can be written, every command says so, and everything is as it was. (The limit of
// the process fails a write in the middle of the file, as a full disk does.)
func TestNoRoomForTheFiles(t *testing.T) {
	for _, j := range jobs {
		t.Run(j.name, func(t *testing.T) {
			s := staged(t, j)
			largest := 0
			for name, text := range s.new {
				if text != s.old[name] {
					largest = max(largest, len(text))
				}
			}
			for _, blocks := range []int{0, largest / 2 / 1024} {
				dir := s.fresh(t)
				c := exec.Command("bash", append([]string{"-c", fmt.Sprintf(`ulimit -f %d && exec hoistbook "$@"`, blocks), "bash"}, s.args...)...)
				c.Dir = dir
				var errs bytes.Buffer
				c.Stderr = &errs
				_ = c.Run()
				if status := c.ProcessState.ExitCode(); status != 2 || !strings.Contains(errs.String(), "file too large") {
					t.Errorf("with room for %d KiB it ends with %d and says %q", blocks, status, errs.String())
				}
				if j.name == "new" {
					_ = os.Remove(filepath.Join(dir, "ours")) // an empty folder
				}
				s.untouched(t, dir, fmt.Sprintf("with room for %d KiB", blocks))
			}
		})
	}
}

// A full disk: a file system in memory of 16 megabytes that something else has filled up. It needs a namespace for mounting.
func TestADiskThatIsFull(t *testing.T) {
	const script = `mount -t tmpfs -o size=16m,mode=755 tmpfs "$1" && cp -r "$2"/. "$1" && cd "$1" && { head -c 32M /dev/zero > fill 2>/dev/null; true; } && shift 2 &&
		{ hoistbook "$@" >&2; echo "ends with $?"; rm fill; tar -c .; } > "$OLDPWD/out"`
	if out, err := exec.Command("unshare", "-m", "true").CombinedOutput(); err != nil {
		t.Skipf("no file system can be mounted here: %v %s", err, out)
	}
	for _, j := range jobs {
		t.Run(j.name, func(t *testing.T) {
			s := staged(t, j)
			dir, mount := s.fresh(t), t.TempDir()
			c := exec.Command("unshare", append([]string{"-m", "sh", "-c", script, "sh", mount, dir}, s.args...)...)
			c.Dir = t.TempDir()
			out, err := c.CombinedOutput()
			if err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			if !strings.Contains(string(out), "no space left on device") {
				t.Errorf("it says %s", out)
			}
			result, err := os.ReadFile(filepath.Join(c.Dir, "out"))
			if err != nil {
				t.Fatal(err)
			}
			first, archive, _ := bytes.Cut(result, []byte("\n"))
			if string(first) != "ends with 2" {
				t.Errorf("it %s", first)
			}
			unpacked := t.TempDir()
			tar := exec.Command("tar", "-x", "-C", unpacked)
			tar.Stdin = bytes.NewReader(archive)
			if out, err := tar.CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			s.untouched(t, unpacked, "on a full disk")
		})
	}
}

// A folder that may only be read, one that is a file, and a file that is a folder: it is told, and everything is as it was.
func TestTargetsThatCannotBeWritten(t *testing.T) {
	program, err := exec.LookPath("hoistbook")
	if err != nil {
		t.Fatal(err)
	}
	shared := filepath.Join(open(t, t.TempDir()), "hoistbook")
	data, err := os.ReadFile(program)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(shared, data, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, j := range jobs {
		t.Run(j.name, func(t *testing.T) {
			s := staged(t, j)
			dir := open(t, s.fresh(t))
			if err := os.Chmod(dir, 0o555); err != nil {
				t.Fatal(err)
			}
			defer func() { _ = os.Chmod(dir, 0o755) }()
			c := exec.Command(shared, s.args...)
			c.Dir = dir
			if os.Getuid() == 0 { // whom permissions do not hold
				c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
			}
			out, _ := c.CombinedOutput()
			if status := c.ProcessState.ExitCode(); status != 2 || !strings.Contains(string(out), "permission denied") {
				t.Errorf("it ends with %d and says %s", status, out)
			}
			s.untouched(t, dir, "in a folder that may only be read")
		})
	}
	for _, c := range []struct{ target, said string }{{"file/x.pdf", "file is a file, and a folder belongs here"}, {"folder.pdf", "no file that could be replaced"}, {"nowhere/x.pdf", "there is no folder nowhere; make it first"}} {
		s := stage{old: map[string]string{"file": "a file"}}
		dir := s.fresh(t)
		if err := os.Mkdir(filepath.Join(dir, "folder.pdf"), 0o755); err != nil {
			t.Fatal(err)
		}
		run := exec.Command("hoistbook", "order", "-o", "first.csv", "-o", c.target)
		run.Dir = dir
		out, _ := run.CombinedOutput()
		if status := run.ProcessState.ExitCode(); status != 2 || !strings.Contains(string(out), c.said) {
			t.Errorf("%s: it ends with %d and says %s", c.target, status, out)
		}
		s.untouched(t, dir, c.target)
	}
}

// open lets everybody into a folder of a test.
func open(t *testing.T, dir string) string {
	t.Helper()
	for _, d := range []string{dir, filepath.Dir(dir)} {
		if err := os.Chmod(d, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}
