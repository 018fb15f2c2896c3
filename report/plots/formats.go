package plots

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"
)

// fileFormats lists the formats that a figure can be written in; files end in a
// point and the format.
var fileFormats = []string{"svg", "png", "pdf"}

// FormatOf is the format that a file's ending asks for, in either case; false
// where it asks for none of fileFormats.
func FormatOf(file string) (string, bool) {
	format := strings.ToLower(strings.TrimPrefix(filepath.Ext(file), "."))
	return format, slices.Contains(fileFormats, format)
}

// Write writes the figure in one of fileFormats. The error is w's, or says that
// there is no such format.
func (f Figure) Write(w io.Writer, format string) error {
	switch format {
	case "svg":
		return f.writeSVG(w)
	case "png":
		return f.writePNG(w)
	case "pdf":
		return f.writePDF(w)
	}
	return fmt.Errorf("no figure can be written as %q: %s", format, strings.Join(fileFormats, ", "))
}

// The canvas asks for its own typeface alone, which few phones have; without it
// letters of other widths would be shown. These have the same widths.
const (
	onlyFont = `style="font-family:Liberation Sans;`
	anyFont  = `style="font-family:Liberation Sans,Arimo,Arial,Helvetica,sans-serif;`
)

func (f Figure) writeSVG(w io.Writer) error {
	c := vgsvg.New(width, f.height())
	f.draw(draw.New(c))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return err
	}
	// text cannot be mistaken for it: its quotation marks are escaped
	_, err := w.Write(bytes.ReplaceAll(b.Bytes(), []byte(onlyFont), []byte(anyFont)))
	return err
}

// dotsPerInch gives two dots a point.
const dotsPerInch = 144

func (f Figure) writePNG(w io.Writer) error {
	c := vgimg.NewWith(vgimg.UseWH(width, f.height()), vgimg.UseDPI(dotsPerInch))
	f.draw(draw.NewCanvas(outlined{c}, width, f.height()))
	_, err := vgimg.PngCanvas{Canvas: c}.WriteTo(w)
	return err
}

// PDF files carry the date on which they were made, which would make each one
// different. There is no setting for one file alone.
func init() {
	fpdf.SetDefaultCreationDate(time.Unix(0, 0).UTC())
	fpdf.SetDefaultModificationDate(time.Unix(0, 0).UTC())
	fpdf.SetDefaultCatalogSort(true)
}

func (f Figure) writePDF(w io.Writer) error {
	c := vgpdf.New(width, f.height())
	f.draw(draw.NewCanvas(outlined{c}, width, f.height()))
	_, err := c.WriteTo(w)
	return err
}
