# SPDX-License-Identifier: GPL-3.0-or-later
"""Rules on every text file: form, licence, words, translations, sources."""
import json
import os
import re

import c_text
from project import Trouble

TOP = {'README.md', 'DEVELOPERS.md', 'meson.build', 'src', 'data', 'po', 'tests', 'samples', 'LICENSE'}
SPDX = 'SPDX-License-Identifier: GPL-3.0-or-later'
MARKED = ('.c', '.h', '.inc', '.py', '.sh', '.ui', '.xml', '.svg', '.css', '.in', '.1', 'meson.build')
ABSOLUTE = re.compile(r'(?<![\w.:/*})$])/(home|root|work|tmp|opt|mnt|srv|usr|var|etc)/')
FREE_PATHS = ('/usr/bin/python3', '/usr/bin/env')

# Nobody's drafting program is to be recalled: these stand nowhere as words of ours …
NOWHERE = re.compile(r'\b(sketch\w*|timeline|workplane|extrud\w*|unfold\w*|wizard)\b', re.I)
# … and these, which the machine's own language needs, neither in what a person reads nor in names.
NOT_SHOWN = re.compile(r'\b(features?|trees?|mates?|constraints?|famil(?:y|ies))\b', re.I)
IN_NAMES = {'sketch', 'timeline', 'workplane', 'extrude', 'unfold', 'wizard', 'feature', 'tree', 'mate', 'constraint'}
VAGUE = re.compile(r'(?:^|[-_])(manager|utils?|misc|helpers?|common|stuff)(?=$|[-_.])')
MARKS = re.compile(r'\b(TODO|FIXME|XXX|HACK)\b')

CALL = re.compile(r'\b(?:N?C?_|C_|NC_|ngettext|g_dngettext|dgettext|g_dpgettext2?)\s*\(')
TRANSLATED = ('.ui', '.desktop.in', '.metainfo.xml.in', '.mime.xml.in', '.gschema.xml')
SELF = 'tests/house/'


def top(project):
    """The top folder holds what is agreed and nothing else."""
    names = {p.split('/')[0] for p in project.files}
    return [Trouble(n, 1, 'does not belong at the top') for n in sorted(names)
            if n not in TOP and not n.startswith('.')] + \
           [Trouble(n, 1, 'is missing at the top') for n in sorted(TOP - names)]


def form(project):
    """No tab, no blank at a line's end, a newline at the file's, no carriage return."""
    troubles = []
    for path, text in project.texts():
        if path.startswith('tests/files/') or '/corpus/' in path or path == 'LICENSE':
            continue
        if text and not text.endswith('\n'):
            troubles.append(Trouble(path, text.count('\n') + 1, 'no newline at the end'))
        if text.endswith('\n\n'):
            troubles.append(Trouble(path, text.count('\n'), 'empty line at the end'))
        for number, line in enumerate(text.split('\n'), 1):
            if '\t' in line:
                troubles.append(Trouble(path, number, 'tab'))
            if '\r' in line:
                troubles.append(Trouble(path, number, 'carriage return'))
            elif line != line.rstrip() and not path.endswith('.po'):
                troubles.append(Trouble(path, number, 'blank at the end'))
    return troubles


def licence(project):
    """Each file that can carry it has the SPDX line among its first five."""
    troubles = []
    for path, text in project.texts():
        if path.startswith('tests/files/') or '/corpus/' in path or '/golden/' in path:
            continue
        fragment = path.endswith('meson.build') and text.count('\n') <= 3   # a bare list of files
        if (path.endswith(MARKED) or text.startswith('#!')) and not fragment:
            if SPDX not in '\n'.join(text.split('\n')[:5]):
                troubles.append(Trouble(path, 1, SPDX))
    return troubles


def leftovers(project):
    """Nothing is left for later in the text, and no path of one machine."""
    troubles = []
    for path, text in project.texts():
        if path.startswith((SELF, '.')) or path == 'LICENSE':
            continue
        for match in MARKS.finditer(text):
            troubles.append(Trouble(path, c_text.line_of(text, match.start()), match.group(), match.group()))
        for match in ABSOLUTE.finditer(text):
            if not text.startswith(FREE_PATHS, match.start()):
                troubles.append(Trouble(path, c_text.line_of(text, match.start()), f'path of one machine: {match.group()}…'))
    return troubles


def shown_texts(path, text):
    """(place, words) of what a person reads in this file."""
    if path.endswith(('.c', '.h', '.inc')):
        for match in CALL.finditer(c_text.code_only(text)):
            end = c_text.closing(c_text.code_only(text), match.end() - 1)
            for string in re.finditer(r'"((?:\\.|[^"\\])*)"', text[match.start():end]):
                yield match.start() + string.start(), string.group(1)
    elif path.endswith('.ui'):
        for match in re.finditer(r'translatable="(?:yes|true)"[^>]*>([^<]*)<', text):
            yield match.start(1), match.group(1)
    elif path.endswith(('.desktop.in', '.metainfo.xml.in', '.gschema.xml', '.1', '.1.in')):
        yield 0, re.sub(r'<[^>]*>', lambda m: ' ' * len(m.group()), text)


def words_of(name):
    """The words that a name is made of: tw_pass_find, TwPassFind, TW_PASS."""
    return {w.lower() for w in re.findall(r'[A-Z]?[a-z]+|[A-Z]+', name)}


def words(project):
    """Our own words: none of a drafting program's, no vague names."""
    troubles = []
    for path, text in project.texts():
        if path.startswith((SELF, '.')) or path == 'LICENSE':
            continue
        for match in NOWHERE.finditer(text):
            troubles.append(Trouble(path, c_text.line_of(text, match.start()), f'"{match.group()}" is not a word of ours',
                                    match.group().lower()))
        for place, shown in shown_texts(path, text):
            for match in NOT_SHOWN.finditer(shown):
                troubles.append(Trouble(path, c_text.line_of(text, place + match.start()),
                                        f'"{match.group()}" is not a word of ours', match.group().lower()))
        if path.startswith('src/'):
            for match in re.finditer(r'\b(?:tw_|Tw|TW_)\w+', c_text.code_only(text)):
                if IN_NAMES & words_of(match.group()):
                    troubles.append(Trouble(path, c_text.line_of(text, match.start()),
                                            f'{match.group()}: not a word of ours', match.group()))
    for path in project.files:
        stem = os.path.basename(path)
        if path.startswith(('src/', 'tests/', 'data/')) and not path.startswith(SELF) and \
           (VAGUE.search(os.path.splitext(stem)[0]) or IN_NAMES & words_of(stem)):
            troubles.append(Trouble(path, 1, 'the name does not say what is in it'))
    return troubles


def translations(project):
    """po/POTFILES.in lists exactly the files with words to translate."""
    listed = [line for line in (project.files.get('po/POTFILES.in') or '').split('\n') if line and line[0] != '#']
    troubles = []
    wanted = set()
    for path, text in project.texts(under='src/'):
        if path.endswith(('.c', '.h', '.inc')) and any(True for _ in shown_texts(path, text)):
            wanted.add(path)
    wanted |= {p for p in project.files if p.startswith(('src/', 'data/')) and p.endswith(TRANSLATED)}
    for path in sorted(wanted - set(listed)):
        troubles.append(Trouble('po/POTFILES.in', 1, f'add the line {path}'))
    for path in sorted(set(listed) - wanted):
        troubles.append(Trouble('po/POTFILES.in', 1, f'{path} has nothing to translate, or is gone'))
    for path in sorted({p for p in listed if listed.count(p) > 1}):
        troubles.append(Trouble('po/POTFILES.in', 1, f'{path} stands twice'))
    return troubles


def json_files(project):
    """Every JSON file of data/ and every sample can be read and says nothing twice."""
    troubles = []

    def once(pairs):
        seen = [k for k, _ in pairs]
        for key in {k for k in seen if seen.count(k) > 1}:
            raise ValueError(f'"{key}" stands twice')
        return dict(pairs)

    for path, text in project.texts('.json', '.twjob'):
        if path.startswith(('data/', 'samples/')):
            try:
                json.loads(text, object_pairs_hook=once)
            except ValueError as error:
                troubles.append(Trouble(path, 1, str(error)))
    return troubles


def source_ids(project):
    """The IDs of data/sources.json; None while there is no such file."""
    text = project.files.get('data/sources.json')
    if text is None:
        return None
    held = json.loads(text)
    held = held.get('sources', held) if isinstance(held, dict) else held
    if isinstance(held, list):
        return [s['id'] for s in held]
    return [k for k in held if not k.startswith('$')]


def named_sources(project):
    """(path, line, ID) of each tag in C and each "source" member in data."""
    for path, text in project.texts('.c', '.h', '.inc', '.py'):
        if path.startswith(SELF):
            continue
        for match in re.finditer(r'\[sources?:\s*([^\]]+)\]', text):
            for named in match.group(1).split(';'):
                yield path, c_text.line_of(text, match.start()), named.split(',')[0].strip()
    for path, text in project.texts('.json', under='data/'):
        if path == 'data/sources.json' or path.endswith('.schema.json'):
            continue
        for match in re.finditer(r'"sources?"\s*:\s*(\[[^\]]*\]|"[^"]*")', text):
            for named in re.findall(r'"([^"]*)"', match.group(1)):
                yield path, c_text.line_of(text, match.start()), named


def awaiting_sources(project):
    """IDs whose entry says which folder will name them: "awaits": "metal"."""
    held = json.loads(project.files.get('data/sources.json') or '{}')
    held = held.get('sources', held)
    return {s['id'] for s in held if 'awaits' in s} if isinstance(held, list) else set()


def sources(project):
    """Every source named anywhere is in data/sources.json, and each of those is named somewhere or awaits its room."""
    ids = source_ids(project)
    troubles, used = [], set()
    for path, line, named in named_sources(project):
        used.add(named)
        if named not in (ids or []):
            troubles.append(Trouble(path, line, f'source {named} is not in data/sources.json', named))
    for unused in sorted(set(ids or []) - used - awaiting_sources(project)):
        troubles.append(Trouble('data/sources.json', 1, f'source {unused} is used nowhere', unused))
    return troubles
