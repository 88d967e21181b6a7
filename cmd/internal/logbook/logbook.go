// Package logbook keeps the record of a walk-through in a file: one line at a time, on the disk before anybody is told that
// it is recorded. A crash, a full disk or a killed process loses at most the line that was being written.
//
// What is assumed: the file system keeps what it has confirmed, and one machine writes. A second program on the same file is
// kept out by a lock.
package logbook

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"hoistbook/render/walk"
)

// A Book is a record's file, open for its next line.
type Book struct {
	path  string
	disk  disk
	chain walk.Chain
	size  int64 // bytes of whole lines: what lies behind is a line that failed
	torn  bool  // something may lie behind
}

// disk is what is asked of a file; tests let it fail.
type disk interface {
	io.WriterAt
	io.Closer
	Truncate(size int64) error
	Sync() error
}

// Open opens a record, or makes a new file for one. The record has no entries when it is new, and so has one whose first
// line was never finished. A line that was torn is cut off the file. A record that does not hold together is left alone.
func Open(path string) (*Book, *walk.Record, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, nil, err
	}
	b, r, err := open(path, f)
	if err != nil {
		return nil, nil, errors.Join(err, f.Close())
	}
	return b, r, nil
}

func open(path string, f *os.File) (*Book, *walk.Record, error) {
	if err := lock(f); err != nil {
		return nil, nil, fmt.Errorf("%s: another program has this record open; end that one first, or use its page", path)
	}
	data, err := io.ReadAll(io.LimitReader(f, walk.MaxRecord+1))
	if err != nil {
		return nil, nil, err
	}
	r := &walk.Record{Torn: int64(len(data))}
	if !walk.Unborn(data) {
		if r, err = walk.ReadRecord(path, data); err != nil {
			return nil, nil, err
		}
	}
	b := &Book{path: path, disk: f, chain: r.Chain, size: r.Size, torn: r.Torn > 0}
	if len(data) == 0 {
		err = settle(filepath.Dir(path))
	} else {
		err = b.mend()
	}
	return b, r, err
}

// Read reads a record without opening it for more.
func Read(path string) (*walk.Record, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(f, walk.MaxRecord+1))
	if err := errors.Join(err, f.Close()); err != nil {
		return nil, err
	}
	return walk.ReadRecord(path, data)
}

// mend cuts off what a failed line has left.
func (b *Book) mend() error {
	if !b.torn {
		return nil
	}
	if err := errors.Join(b.disk.Truncate(b.size), b.disk.Sync()); err != nil {
		return fmt.Errorf("%s: a line that was not finished cannot be cut off: %w", b.path, err)
	}
	b.torn = false
	return nil
}

// Append writes an entry and returns when it is on the disk. When it fails nothing was recorded, and it can be tried again.
func (b *Book) Append(e walk.Entry) error {
	if err := b.mend(); err != nil {
		return err
	}
	line, after, err := b.chain.Seal(e)
	if err != nil {
		return err
	}
	b.torn = true
	if _, err = b.disk.WriteAt(line, b.size); err == nil {
		err = b.disk.Sync()
	}
	if err != nil {
		fix := "see to the disk"
		if errors.Is(err, syscall.ENOSPC) {
			fix = "make room on the disk"
		}
		return errors.Join(fmt.Errorf("not recorded: %w; %s, and answer again", err, fix), b.mend())
	}
	b.chain, b.size, b.torn = after, b.size+int64(len(line)), false
	return nil
}

// Chain is the end of the chain.
func (b *Book) Chain() walk.Chain { return b.chain }

// Close gives the file back.
func (b *Book) Close() error { return b.disk.Close() }

// settle flushes a folder, so that a new file outlives a power cut. Systems that cannot open folders do without.
func settle(dir string) error {
	d, err := os.Open(dir)
	if errors.Is(err, fs.ErrPermission) {
		return nil
	}
	if err != nil {
		return err
	}
	_ = d.Sync()
	return d.Close()
}
