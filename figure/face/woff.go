package face

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"io"
)

// The parts of a web font file: WOFF File Format 1.0 (W3C, 2012), sections 3 to 5.
const (
	woffHead  = 44
	woffEntry = 20
	sfntHead  = 12
	sfntEntry = 16
)

var errNoFont = errors.New("no web font")

// unpack gives the font in a web font file: the same tables, not compressed.
func unpack(woff []byte) ([]byte, error) {
	if len(woff) < woffHead || string(woff[:4]) != "wOFF" {
		return nil, errNoFont
	}
	big := binary.BigEndian
	n := int(big.Uint16(woff[12:]))
	if len(woff) < woffHead+n*woffEntry {
		return nil, errNoFont
	}
	// The numbers after the count serve a search that no reader here makes.
	out := make([]byte, sfntHead+n*sfntEntry, big.Uint32(woff[16:]))
	copy(out, woff[4:8])
	big.PutUint16(out[4:], uint16(n))
	for i := range n {
		from := woff[woffHead+i*woffEntry:]
		table, err := table(woff, big.Uint32(from[4:]), big.Uint32(from[8:]), big.Uint32(from[12:]))
		if err != nil {
			return nil, err
		}
		to := out[sfntHead+i*sfntEntry:]
		copy(to, from[:4])
		copy(to[4:], from[16:20])
		big.PutUint32(to[8:], uint32(len(out)))
		big.PutUint32(to[12:], uint32(len(table)))
		out = append(out, table...)
		out = append(out, make([]byte, -len(out)&3)...)
	}
	return out, nil
}

// table gives a table, which is compressed where that makes it shorter.
func table(woff []byte, at, packed, size uint32) ([]byte, error) {
	if uint64(at)+uint64(packed) > uint64(len(woff)) {
		return nil, errNoFont
	}
	data := woff[at : at+packed]
	if packed == size {
		return data, nil
	}
	r, err := zlib.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	out, err := io.ReadAll(io.LimitReader(r, int64(size)+1))
	if err == nil && len(out) != int(size) {
		err = errNoFont
	}
	return out, err
}
