package main

import (
	"embed"
	"io"
	"strings"
)

//go:embed topics
var topicTexts embed.FS

// topics are what help explains beside the commands.
var topics = []string{"study", "log", "place", "intervals"}

// writeTopic writes the text of a topic; false where it is none.
func writeTopic(w io.Writer, name string) (bool, error) {
	text, err := topicTexts.ReadFile("topics/" + strings.ToLower(name) + ".txt")
	if err != nil {
		return false, nil
	}
	_, err = w.Write(text)
	return true, err
}
