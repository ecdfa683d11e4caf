// Package web is the pages: what people in the yard and the owners of its boats open in a browser. Pages are made
// here from templates, work without a script and load nothing from elsewhere. What they show comes from package app,
// as the operations under /api/v1 have it.
//
// # Getting in
//
// Somebody gets in by a link, /enter/ and a token. Opening it shows one button; only pressing it signs in, so that a
// program that looks at links in mail cannot use one. From then on a cookie stands for the token, which every request
// looks at again: a token that is revoked or has expired ends its sessions at once. The token stands in no log and in
// no page but the one with the button.
//
// # Adding a page
//
// A page is one file here, one template of the same name in templates, and one line in the table of routes, which
// says what roles it is for. What is not for somebody is answered like what is not there; only a form of somebody who
// is not signed in is told so, wherever it is sent, because its sender may lose what was typed.
//
// # Words
//
// Owners read no word of the trade that is not explained where it first stands on the page: the words with their
// meanings are in glossary.go, and a page for owners writes its texts with Explain.
package web
