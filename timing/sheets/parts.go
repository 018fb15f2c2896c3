package sheets

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"iter"
	"strings"

	"headhours/timing/words"
)

// parts are the files within a workbook.
type parts struct {
	files map[string]*zip.File // by name, in small letters
	left  int64                // bytes that may still be unpacked
}

func isZip(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// isCompound knows the container of encrypted workbooks and of the binary ones
// before .xlsx ([MS-CFB] 2.2, the signature of its header).
func isCompound(data []byte) bool {
	return bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"))
}

func unzip(data []byte) (*parts, error) {
	if isCompound(data) {
		return nil, errLocked
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	switch {
	case err != nil && isZip(data):
		return nil, fmt.Errorf("is damaged: %s", words.Cause(err))
	case err != nil:
		return nil, errNoSheet
	}
	p := &parts{files: map[string]*zip.File{}, left: maxBytes}
	for _, f := range z.File {
		name := partName(f.Name)
		if p.files[name] != nil {
			return nil, fmt.Errorf("is damaged: it holds %s twice", words.Quote(f.Name))
		}
		p.files[name] = f
	}
	return p, nil
}

// partName is a part's name as it is looked up: case does not matter, and some
// programs write backslashes (ISO/IEC 29500-2, 6.2.2.3).
func partName(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

func (p *parts) has(name string) bool { return p.files[partName(name)] != nil }

// open unpacks a part. What it says of its length is held to by archive/zip, so
// that nothing unpacks to more.
func (p *parts) open(name string) (io.ReadCloser, error) {
	f := p.files[partName(name)]
	if f == nil {
		return nil, fmt.Errorf("is damaged: it lacks its part %s", words.Show(words.Short(name)))
	}
	if f.UncompressedSize64 > uint64(p.left) {
		return nil, errLarge
	}
	p.left -= int64(f.UncompressedSize64)
	body, err := f.Open()
	if err != nil {
		return nil, damaged(name, err)
	}
	return body, nil
}

// tokens are those of a part of XML. An error is the last that is yielded.
// Note: xml.Unmarshal would keep every element that is open, however deep.
func (p *parts) tokens(name string) iter.Seq2[xml.Token, error] {
	return func(yield func(xml.Token, error) bool) {
		body, err := p.open(name)
		if err != nil {
			yield(nil, err)
			return
		}
		defer body.Close()
		in := &rationed{r: body}
		d := xml.NewDecoder(in)
		for depth := 0; ; {
			in.left = maxToken
			t, err := d.Token()
			attrs := 0
			switch t := t.(type) {
			case xml.StartElement:
				depth++
				attrs = len(t.Attr)
			case xml.EndElement:
				depth--
			}
			switch {
			case err == io.EOF:
				return
			case err == errToken:
			case err != nil:
				err = damaged(name, err)
			case depth > deepest:
				err = errDeep
			case attrs > maxAttrs:
				err = errAttrs
			}
			if !yield(t, err) || err != nil {
				return
			}
		}
	}
}

// rationed gives no more bytes than are left: a decoder would keep a token of any size.
type rationed struct {
	r    io.Reader
	left int
}

func (r *rationed) Read(b []byte) (int, error) {
	if r.left <= 0 {
		return 0, errToken
	}
	n, err := r.r.Read(b)
	r.left -= n
	return n, err
}

// attr is the value of an attribute, by its local name.
func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}
