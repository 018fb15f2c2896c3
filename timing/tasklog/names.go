package tasklog

import "hash/maphash"

// nameList is names, each once, in order of first appearance, the first "". It finds one by its
// hash in memory that lies together: grows may be many, each new, and to find that in a map
// takes several times as long.
type nameList struct {
	list  []string
	slots []nameSlot // a power of two of them, no more than half in use
	last  int        // that was found
}

// nameSlot is the place of a name in the list, 0 where there is none, and some of its hash.
type nameSlot struct{ hash, at uint32 }

var nameSeed = maphash.MakeSeed()

// slotOf is where a name is, or would be.
func (n *nameList) slotOf(name []byte) (slot *nameSlot, hash uint32) {
	all := maphash.Bytes(nameSeed, name)
	hash = uint32(all >> 32)
	for i := int(all); ; i++ {
		slot = &n.slots[i&(len(n.slots)-1)]
		if slot.at == 0 || slot.hash == hash && n.list[slot.at] == string(name) {
			return slot, hash
		}
	}
}

// find is the index of a name that is there. Names come again in the order in which they came, as a rule.
func (n *nameList) find(name []byte) (index int32, ok bool) {
	if len(name) == 0 {
		return 0, true
	}
	for next := n.last; next < min(n.last+2, len(n.list)); next++ {
		if string(name) == n.list[next] {
			n.last = next
			return int32(next), true
		}
	}
	slot, _ := n.slotOf(name)
	if slot.at > 0 {
		n.last = int(slot.at)
	}
	return int32(slot.at), slot.at > 0
}

// of is the index of a name, which is there from then on.
func (n *nameList) of(name string) int32 {
	if name == "" {
		return 0
	}
	slot, hash := n.slotOf([]byte(name))
	if slot.at > 0 {
		return int32(slot.at)
	}
	*slot = nameSlot{hash, uint32(len(n.list))}
	n.list = append(n.list, name)
	if 2*len(n.list) > len(n.slots) {
		n.grow()
	}
	return int32(len(n.list) - 1)
}

// grow makes room for twice as many.
func (n *nameList) grow() {
	n.slots = make([]nameSlot, 2*len(n.slots))
	for at, name := range n.list[1:] {
		slot, hash := n.slotOf([]byte(name))
		*slot = nameSlot{hash, uint32(at + 1)}
	}
}

// forget forgets them all. Others may have the list still; as many come again.
func (n *nameList) forget() {
	if n.slots == nil {
		n.slots = make([]nameSlot, 64)
	}
	clear(n.slots)
	n.last = 0
	n.list = append(make([]string, 0, len(n.list)+1), "")
}
