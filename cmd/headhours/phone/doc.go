// Package phone is the stopwatch's face on a phone: a small server on the
// computer that holds the study, and one page that it serves.
//
// Each press on the page is an event of the stopwatch's core, made and numbered
// on the phone by the phone's clocks. It is kept there before it is sent, sent
// until the server says that it stands in the journal, and counted once however
// often it arrives; so a server or a network that is away loses nothing. The
// server adds nothing to an event: it writes those of each session into the
// journal of that session, one sync a batch, and answers. Two phones are two
// sessions.
//
// The page itself holds nothing of a study and anybody may have it. Whatever
// else is read or written needs a cookie, which the page gets for the code that
// stands in its address behind the #, a part that browsers do not send. A code works
// once and for ten minutes; the cookie comes of a key that stays in the study folder,
// so phones that are in stay in. The page has no outside request, and neither has the
// server.
//
// Who has no cookie yet is a guest: guests have few connections, seats and seconds,
// and the first of too many is sent away, so that none of them can keep out a phone.
// What logs say is read in the background, once for all; no press waits for it.
//
// Note: over plain HTTP a page from another computer has no service worker, no
// wake lock and no clipboard, so none is used. A page that is reloaded while the
// server is away comes back only once the server does; the presses wait for it.
package phone
