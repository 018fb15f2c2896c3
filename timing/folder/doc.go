// Package folder opens a study: the folder with its study.toml and the task
// logs under timings/.
//
// study.toml is read strictly. An unknown key, a wrong type, a name that
// nothing defines, a value out of range, a duplicate name and keys that
// contradict each other are problems, each with its place, and all of them are
// given at once. So are those of the logs: nothing is computed from a study
// that has any.
package folder
