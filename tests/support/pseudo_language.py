#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes a language that nobody speaks: qps, to see what a translation would do to the window.

usage: pseudo_language.py SOURCE_FOLDER LOCALE_FOLDER [STAMP DEPENDENCIES]

Reads the words of all files in po/POTFILES.in and writes LOCALE_FOLDER/qps/LC_MESSAGES/tankwright.mo. Each text
stands in brackets, so that one that was put together shows its joints; each letter has an accent or is a wide
sign, so that a text that is not translated shows; each word is two fifths longer. Placeholders, mnemonics and
tags stay.
"""
import os
import re
import subprocess
import sys
import tempfile

BEGIN, END = '⟦', '⟧'
LETTERS = dict(zip('abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ',
                   'áƀçđëƒğħïĵķłɱñöþɋŕšťüṽŵẋýžÅƁÇÐÉƑĜĦÎĴĶŁṀÑÖÞɊŘŠŤÛṼŴẊÝŽ'))
LONGER = 'ŵööïñ'   # what is added to a word, as much of it as wanted
# printf's placeholders, tags and entities, addresses, what is escaped, and a mnemonic's mark
KEPT = re.compile(r"%(?:\d+\$)?[-+ #0']*\d*(?:\.\d+)?(?:hh|h|ll|l|z)?[a-zA-Z%]|<[^>]+>|&\w+;|https?://\S+"
                  r"|\\.")
WORD = re.compile(r'[A-Za-z_]+')


def lengthen(match):
    word = match.group(0)
    letters = len(word.replace('_', ''))
    extra = -(-letters * 2 // 5) if letters > 1 else 0
    return ''.join(LETTERS.get(sign, sign) for sign in word) + (LONGER * extra)[:extra]


def disguise(text):
    """The text as qps says it; an empty one stays empty."""
    if not text.strip():
        return text
    parts, at = [], 0
    for kept in KEPT.finditer(text):
        parts += [WORD.sub(lengthen, text[at:kept.start()]), kept.group(0)]
        at = kept.end()
    parts.append(WORD.sub(lengthen, text[at:]))
    body = ''.join(parts)
    line_ends = re.compile(r'^((?:\\n)*)(.*?)((?:\\n)*)$', re.S).match(body)   # gettext wants them outside
    return f'{line_ends.group(1)}{BEGIN}{line_ends.group(2)}{END}{line_ends.group(3)}'


def strings(lines):
    """(keyword, text) of each entry line, continuation lines joined; text still escaped."""
    keyword, text = None, ''
    for line in lines:
        match = re.match(r'(msg\w+(?:\[\d\])?) "(.*)"$', line)
        if match:
            if keyword:
                yield keyword, text
            keyword, text = match.groups()
        elif line.startswith('"') and keyword:
            text += line.rstrip()[1:-1]
        elif keyword:
            yield keyword, text
            keyword, text = None, ''
            if not line.strip():
                yield '', ''
    if keyword:
        yield keyword, text


def entries(pot):
    entry = {}
    for keyword, text in strings(pot.splitlines() + ['']):
        if keyword:
            entry[keyword] = text
        elif entry:
            yield entry
            entry = {}
    if entry:
        yield entry


HEADER = (r'Language: qps\nMIME-Version: 1.0\nContent-Type: text/plain; charset=UTF-8\n'
          r'Content-Transfer-Encoding: 8bit\nPlural-Forms: nplurals=2; plural=(n != 1);\n')


def translate(pot):
    out = [f'msgid ""\nmsgstr "{HEADER}"\n']
    for entry in entries(pot):
        source = entry.get('msgid', '')
        if not source:
            continue
        lines = [f'msgctxt "{entry["msgctxt"]}"'] if 'msgctxt' in entry else []
        lines.append(f'msgid "{source}"')
        if 'msgid_plural' in entry:
            lines += [f'msgid_plural "{entry["msgid_plural"]}"', f'msgstr[0] "{disguise(source)}"',
                      f'msgstr[1] "{disguise(entry["msgid_plural"])}"']
        else:
            lines.append(f'msgstr "{disguise(source)}"')
        out.append('\n'.join(lines) + '\n')
    return '\n'.join(out)


def extract(source):
    """The words of the program, by the same rules as the template (Meson's preset for GLib)."""
    with tempfile.NamedTemporaryFile(suffix='.pot') as pot:
        subprocess.run(['xgettext', '--from-code=UTF-8', '--keyword=_', '--keyword=N_', '--keyword=C_:1c,2',
                        '--keyword=NC_:1c,2', '--keyword=g_dcgettext:2', '--keyword=g_dngettext:2,3',
                        '--keyword=g_dpgettext2:2c,3', '--no-location', '--no-wrap', '--force-po',
                        '--directory', source, '--files-from', os.path.join(source, 'po', 'POTFILES.in'),
                        '--output', pot.name], check=True, stderr=subprocess.DEVNULL)
        with open(pot.name, encoding='UTF-8') as file:
            return file.read()


def main():
    source, folder = sys.argv[1], os.path.join(sys.argv[2], 'qps', 'LC_MESSAGES')
    os.makedirs(folder, exist_ok=True)
    po = os.path.join(folder, 'tankwright.po')
    with open(po, 'w', encoding='UTF-8') as file:
        file.write(translate(extract(source)))
    subprocess.run(['msgfmt', '--check-format', '-o', po[:-2] + 'mo', po], check=True)
    if len(sys.argv) > 4:   # for the build: made, and made from what
        listed = [line.split(']')[-1].strip() for line in open(os.path.join(source, 'po', 'POTFILES.in'))]
        with open(sys.argv[4], 'w', encoding='UTF-8') as file:
            file.write(f'{sys.argv[3]}:' + ''.join(' ' + os.path.join(source, line) for line in listed
                                                   if line and not line.startswith('#')) + '\n')
        open(sys.argv[3], 'w', encoding='UTF-8').close()


if __name__ == '__main__':
    main()
