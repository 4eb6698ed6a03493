// Package store turns the sheets of a sweep into bytes and back, so that a
// sweep can be asked again without flying, and goes on where it was stopped.
//
// Invariant: a store is a heading and a record for each sheet, one after the
// other; each record is whole, or it is not there. So what is left of a sweep
// that was killed at any moment is the beginning of the whole, and going on
// gives the same bytes as never having stopped.
//
// Layout, in order: the line "knockon sweep 4"; records of a length and a
// checksum (CRC-32C, of the payload), four bytes each with the lowest first,
// and the payload, which is compressed (RFC 1951). The first record is the
// heading.
//
// Start reading at Read.
package store

import (
	"bufio"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"

	"knockon/sweep"
)

const magic = "knockon sweep 4\n"

// Heading says what was swept. Sheets of another heading do not belong together.
type Heading struct {
	Book     string // a digest of the book's text
	Build    string
	Flight   string
	Order    int
	Failures []string // as written in a book, in the order of their numbers
	Phases   []string // a sheet for each, in this order
}

// ErrForeign says that the bytes are not a stored sweep.
var ErrForeign = errors.New("this is not a stored sweep of this version")

// WriteHeading begins a store.
func WriteHeading(w io.Writer, h Heading) error {
	if _, err := io.WriteString(w, magic); err != nil {
		return err
	}
	return writeRecord(w, encodeHeading(h))
}

// WriteSheet adds a sheet to a store.
func WriteSheet(w io.Writer, s *sweep.Sheet) error { return writeRecord(w, encodeSheet(s)) }

// Read reads a store as far as it is whole. good is how many bytes that is:
// what comes behind them was being written when the sweep was stopped, or is
// damaged, and is to be cut off before more is added. A store whose heading is
// not whole is as good as none: good is 0.
func Read(r io.Reader) (h Heading, sheets []*sweep.Sheet, good int64, err error) {
	in := bufio.NewReader(r)
	start := make([]byte, len(magic))
	n, err := io.ReadFull(in, start)
	switch {
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) && magic[:n] == string(start[:n]):
		return h, nil, 0, nil
	case err != nil && !errors.Is(err, io.ErrUnexpectedEOF):
		return h, nil, 0, fmt.Errorf("reading a stored sweep: %w", err)
	case string(start) != magic:
		return h, nil, 0, ErrForeign
	}
	payload, size := readRecord(in)
	if payload == nil || !decode(payload, func(d *decoder) { h = d.heading() }) {
		return h, nil, 0, nil
	}
	good = int64(len(magic)) + size
	for {
		payload, size := readRecord(in)
		var s *sweep.Sheet
		if payload == nil || !decode(payload, func(d *decoder) { s = d.sheet() }) {
			return h, sheets, good, nil
		}
		sheets, good = append(sheets, s), good+size
	}
}

var table = crc32.MakeTable(crc32.Castagnoli)

// mostRecord bounds a record, so that a damaged length does not ask for the
// whole memory.
const mostRecord = 1 << 31

func writeRecord(w io.Writer, plain []byte) error {
	var packed bytes.Buffer
	z, err := flate.NewWriter(&packed, flate.DefaultCompression)
	if err != nil {
		return err
	}
	if _, err := z.Write(plain); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	if packed.Len() > mostRecord {
		return fmt.Errorf("a sheet of %d bytes is too large to store", packed.Len())
	}
	head := binary.LittleEndian.AppendUint32(nil, uint32(packed.Len()))
	head = binary.LittleEndian.AppendUint32(head, crc32.Checksum(packed.Bytes(), table))
	_, err = w.Write(append(head, packed.Bytes()...))
	return err
}

// readRecord gives the payload of the next whole record, and how many bytes the
// record has; nil if there is none.
func readRecord(r io.Reader) (plain []byte, size int64) {
	var head [8]byte
	if _, err := io.ReadFull(r, head[:]); err != nil {
		return nil, 0
	}
	length := int64(binary.LittleEndian.Uint32(head[:]))
	var packed bytes.Buffer
	if n, err := io.Copy(&packed, io.LimitReader(r, length)); err != nil || n != length || length > mostRecord {
		return nil, 0
	}
	if crc32.Checksum(packed.Bytes(), table) != binary.LittleEndian.Uint32(head[4:]) {
		return nil, 0
	}
	plain, err := io.ReadAll(flate.NewReader(&packed))
	if err != nil {
		return nil, 0
	}
	return plain, 8 + length
}
