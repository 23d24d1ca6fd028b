// Reads a log and what was made of it, and answers with what golang.org/x/mod/sumdb (an independent implementation of
// the same formats) makes of it: one word or hash a line. See ../log-outside.test.ts.
package main

import (
	"encoding/json"
	"fmt"
	"os"

	"golang.org/x/mod/sumdb/note"
	"golang.org/x/mod/sumdb/tlog"
)

type question struct {
	Entries     [][]byte
	VerifierKey string
	Checkpoints []string
	Inclusion   []struct {
		Size, Index int64
		Path        []tlog.Hash
	}
	Consistency []struct {
		From, To int64
		Path     []tlog.Hash
	}
}

type answer struct {
	Roots, InclusionPaths, ConsistencyPaths []any
	Inclusion, Consistency                  []string
	Checkpoints                             []string
}

func verdict(err error) string {
	if err != nil {
		return err.Error()
	}
	return "verified"
}

func must(err error) {
	if err != nil {
		panic(err)
	}
}

func main() {
	var q question
	must(json.NewDecoder(os.Stdin).Decode(&q))
	var a answer

	stored := make([]tlog.Hash, 0)
	reader := tlog.HashReaderFunc(func(indexes []int64) ([]tlog.Hash, error) {
		out := make([]tlog.Hash, len(indexes))
		for i, index := range indexes {
			out[i] = stored[index]
		}
		return out, nil
	})
	roots := []tlog.Hash{{}}
	for i, entry := range q.Entries {
		hashes, err := tlog.StoredHashes(int64(i), entry, reader)
		must(err)
		stored = append(stored, hashes...)
		root, err := tlog.TreeHash(int64(i)+1, reader)
		must(err)
		roots = append(roots, root)
		a.Roots = append(a.Roots, root)
	}

	for _, v := range q.Inclusion {
		a.Inclusion = append(a.Inclusion, verdict(tlog.CheckRecord(v.Path, v.Size, roots[v.Size], v.Index, tlog.RecordHash(q.Entries[v.Index]))))
		path, err := tlog.ProveRecord(v.Size, v.Index, reader)
		must(err)
		a.InclusionPaths = append(a.InclusionPaths, path)
	}
	for _, v := range q.Consistency {
		a.Consistency = append(a.Consistency, verdict(tlog.CheckTree(v.Path, v.To, roots[v.To], v.From, roots[v.From])))
		path, err := tlog.ProveTree(v.To, v.From, reader)
		must(err)
		a.ConsistencyPaths = append(a.ConsistencyPaths, path)
	}

	verifier, err := note.NewVerifier(q.VerifierKey)
	must(err)
	for _, checkpoint := range q.Checkpoints {
		opened, err := note.Open([]byte(checkpoint), note.VerifierList(verifier))
		if err != nil {
			a.Checkpoints = append(a.Checkpoints, err.Error())
			continue
		}
		a.Checkpoints = append(a.Checkpoints, opened.Text)
	}
	out, err := json.Marshal(a)
	must(err)
	fmt.Println(string(out))
}
