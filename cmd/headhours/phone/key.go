package phone

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"headhours/timing/late"
)

// keyFile holds the key, in the study folder.
const keyFile = ".phone-key"

// keyForm is a key: 26 letters of an alphabet of 32, 130 bits.
var keyForm = late.Regexp(`^[A-Z2-7]{26}$`)

// loadKey reads the key of a study folder, or makes one where there is none or a
// fresh one is wanted. Others than its owner may not read it.
func loadKey(dir string, fresh bool) (string, error) {
	path := filepath.Join(dir, keyFile)
	text, err := os.ReadFile(path)
	switch {
	case fresh, errors.Is(err, fs.ErrNotExist):
		return newKey(path)
	case err != nil:
		return "", err
	}
	key := strings.TrimSpace(string(text))
	if !keyForm().MatchString(key) {
		return "", fmt.Errorf("%s holds no key: give --new-key for a new one", path)
	}
	return key, private(path)
}

// private refuses a key that others on this computer can read.
func private(path string) error {
	info, err := os.Stat(path)
	if err != nil || runtime.GOOS == "windows" { // where the mode says nothing of that
		return err
	}
	if mode := info.Mode().Perm(); mode&0o077 != 0 {
		return fmt.Errorf("%s can be read by others on this computer (mode %04o): give --new-key for a new one", path, mode)
	}
	return nil
}

// newKey puts a new key in place of the old, whole or not at all.
func newKey(path string) (string, error) {
	key := rand.Text()
	temporary, err := os.CreateTemp(filepath.Dir(path), keyFile+".*") // mode 0600
	if err != nil {
		return "", err
	}
	_, err = temporary.WriteString(key + "\n")
	if err == nil {
		err = temporary.Sync()
	}
	if err = errors.Join(err, temporary.Close()); err == nil {
		err = os.Rename(temporary.Name(), path)
	}
	if err != nil {
		return "", errors.Join(err, os.Remove(temporary.Name()))
	}
	return key, nil
}

// cookie is the name and the value of the cookie that a key is exchanged for.
// The name tells studies apart, since cookies of all ports of a computer are one.
func cookie(key string) (name, value string) {
	name = hex.EncodeToString(derive(key, "name"))[:8]
	return "headhours-" + name, base64.RawURLEncoding.EncodeToString(derive(key, "value"))
}

func derive(key, what string) []byte {
	h := hmac.New(sha256.New, []byte(key))
	h.Write([]byte(what))
	return h.Sum(nil)
}

// keyPath is where a code is exchanged for the cookie.
const keyPath = "/key"

// holds says whether a request carries the cookie of a key.
func holds(r *http.Request, key string) bool {
	name, value := cookie(key)
	c, err := r.Cookie(name)
	return err == nil && hmac.Equal([]byte(c.Value), []byte(value))
}
