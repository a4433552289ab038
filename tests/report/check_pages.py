# SPDX-License-Identifier: MIT
"""check_pages.py EXAMPLE_PAGES: students' pages and the coach's, read by Python's html.parser. However hard the texts
from people's files try, pages with them have the elements and attributes of the page with a harmless
text, in the same order, and show the text as it was written. And every page is whole: elements closed
in order, one h1, headings that skip no level, references that lead somewhere, nothing to load or run but
the coach's page's own script, which its policy knows by its hash, and links to students' pages."""

import base64
import collections
import hashlib
import html.parser
import json
import re
import subprocess
import sys

LONE = {"meta", "input"}
# Values that people's words may stand in.
SPOKEN = {"aria-label", "data-key"}
# In a link they are percent-encoded.
LINKED = {"href"}
FORBIDDEN_ELEMENTS = {"script", "link", "img", "iframe", "object", "embed", "form", "base", "a"}
FORBIDDEN_ATTRIBUTES = {"href", "src", "srcset", "style", "action", "xlink:href"}
COACHS_OWN_ELEMENTS, COACHS_OWN_ATTRIBUTES = {"script", "a"}, {"href"}
LINK = re.compile(r"students/[A-Za-z0-9._%-]+/page\.html")
FEWEST_ATTACKS = 15


class Page(html.parser.HTMLParser):
    def __init__(self, code, coachs=False):
        super().__init__(convert_charrefs=True)
        self.coachs, self.policy, self.script = coachs, "", ""
        self.events, self.shown, self.open, self.faults = [], [], [], []
        self.ids, self.referred, self.headings = [], [], []
        self.feed(code)
        self.close()
        if self.open:
            self.faults.append(f"left open: {self.open}")

    def handle_starttag(self, tag, attrs):
        attributes = dict(attrs)
        fixed = tuple((key, None if key in SPOKEN | LINKED else value) for key, value in attrs)
        self.events.append((tag, fixed))
        if len(attributes) != len(attrs):
            self.faults.append(f"an attribute twice in {tag}")
        if tag == "meta" and attributes.get("http-equiv") == "Content-Security-Policy":
            self.policy = attributes["content"]
        if "href" in attributes and not LINK.fullmatch(attributes["href"]):
            self.faults.append(f"a link to {attributes['href']}")
        elements, names = FORBIDDEN_ELEMENTS, FORBIDDEN_ATTRIBUTES
        if self.coachs:
            elements, names = elements - COACHS_OWN_ELEMENTS, names - COACHS_OWN_ATTRIBUTES
        if tag in elements or names & attributes.keys():
            self.faults.append(f"not allowed: {tag} {sorted(attributes)}")
        if any(key.startswith("on") for key in attributes):
            self.faults.append(f"a handler in {tag}")
        named = attributes.get("aria-label") or attributes.get("aria-labelledby")
        if tag == "svg" and (attributes.get("role") != "img" or not named):
            self.faults.append("a drawing without words")
        if tag in ("h1", "h2", "h3"):
            self.headings.append(int(tag[1]))
        self.ids += [attributes["id"]] if "id" in attributes else []
        self.referred += attributes.get("aria-labelledby", "").split()
        self.shown += [attributes[key] for key in SPOKEN & attributes.keys()]
        if tag not in LONE:
            self.open.append(tag)

    def handle_endtag(self, tag):
        self.events.append(("/", tag))
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> out of order")

    def handle_comment(self, data):
        self.faults.append("a comment")

    def handle_decl(self, decl):
        self.events.append(("!", decl))

    def unknown_decl(self, data):
        self.faults.append("a declaration")

    def handle_data(self, data):
        if self.open and self.open[-1] == "script":
            self.script += data
        else:
            self.shown.append(data)


def faults_of(page):
    faults = list(page.faults)
    if [event for event in page.events if event[0] == "!"] != [("!", "DOCTYPE html")]:
        faults.append("no doctype, or several")
    if page.headings.count(1) != 1 or page.headings[0] != 1:
        faults.append(f"headings {page.headings}")
    if any(then > now + 1 for now, then in zip(page.headings, page.headings[1:])):
        faults.append(f"a level is skipped: {page.headings}")
    if sum(1 for event in page.events if event[0] == "main") != 1:
        faults.append("no main, or several")
    known = base64.b64encode(hashlib.sha256(page.script.encode()).digest()).decode()
    if page.coachs and f"script-src 'sha256-{known}'" not in page.policy:
        faults.append(f"the policy does not know the script: sha256-{known}")
    doubled = [one for one, count in collections.Counter(page.ids).items() if count > 1]
    if doubled or set(page.referred) - set(page.ids):
        faults.append(f"ids {doubled} {set(page.referred) - set(page.ids)}")
    return faults


def pages_of(example):
    start = "<!DOCTYPE html>"
    return [
        Page(start + part, kind == "coachs")
        for kind in ("page", "coachs")
        for part in example[kind].split(start)[1:]
    ]


def main(program):
    examples = json.loads(subprocess.run([program], stdout=subprocess.PIPE, check=True).stdout)
    kinds = 3
    clean, attacks = examples[:kinds], examples[kinds:]
    failed = 0

    def complain(text, what):
        nonlocal failed
        failed += 1
        print(f"{text!r}: {what}")

    if len(attacks) < kinds * FEWEST_ATTACKS:
        complain("", "too few attacks")
    # The check itself must see what gets through.
    for evil in ("<b>", "<p onclick='x'>", "<!-- -->", "<script></script>"):
        broken = Page(clean[0]["page"].split("<!DOCTYPE html>")[1].replace("harmless", evil))
        if broken.events == pages_of(clean[0])[0].events[1:] and not broken.faults:
            complain(evil, "would not be noticed")
    for index, example in enumerate(examples):
        same, text = pages_of(clean[index % kinds]), example["text"]
        pages = pages_of(example)
        if len(pages) != 3:
            complain(text, f"{len(pages)} pages")
            continue
        for page, harmless in zip(pages, same):
            for fault in faults_of(page):
                complain(text, fault)
            if page.events != harmless.events:
                complain(text, "has other elements or attributes than the harmless page")
            # What can't be shown as it is (control characters, bytes that are no text) is made visible.
            plain = text.isprintable() and "\ufffd" not in text
            # Titles within a sentence are in small letters.
            expected = sum(one.count("harmless") for one in harmless.shown)
            found = sum(one.lower().count(text.lower()) for one in page.shown)
            if plain and (expected < 6 or found < expected):
                complain(text, f"is shown {found} times, not {expected}")
    print(f"{len(examples)} pages, {failed} faults")
    return 1 if failed else 0


sys.exit(main(*sys.argv[1:]))
