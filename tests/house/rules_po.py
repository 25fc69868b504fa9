# SPDX-License-Identifier: GPL-3.0-or-later
"""Rules on the words to translate: a template can be made of them, and every language has them all."""
import os
import re
import subprocess
import tempfile

from project import Trouble

LISTED = 'po/POTFILES.in'
FORMATS = ('g_strdup_printf:1', 'g_string_printf:2', 'g_string_append_printf:2', 'g_error_new:3', 'g_set_error:4',
           'g_print:1', 'g_printerr:1')
XGETTEXT = ['xgettext', '--directory=.', f'--files-from={LISTED}', '--from-code=UTF-8', '--add-comments=Translators:',
            '--keyword=_', '--keyword=N_', '--keyword=C_:1c,2', '--keyword=NC_:1c,2', '--keyword=g_dngettext:2,3',
            '--flag=N_:1:pass-c-format', '--flag=_:1:pass-c-format', '--flag=C_:2:pass-c-format',
            '--flag=g_dngettext:2:pass-c-format', *(f'--flag={name}:c-format' for name in FORMATS)]
PLACEHOLDER = re.compile(r'\{\w+\}|%(?:\d+\$)?([-+#0]*\d*(?:\.\d+)?(?:hh|h|ll|l|z)?[a-zA-Z%])')
ENTRY = re.compile(r'^(msgctxt|msgid|msgid_plural|msgstr(?:\[\d\])?) "(.*)"$')


def make_template(root, made):
    """What xgettext says against it; the template stands in the file `made`."""
    done = subprocess.run([*XGETTEXT, f'--output={made}'], cwd=root, capture_output=True, text=True)
    said = [line for line in done.stderr.splitlines() if not line.endswith("extension 'inc' is unknown; will try C")]
    return said or (['xgettext fails'] if done.returncode else [])


def template(project):
    """xgettext makes a template from every listed file, without a warning."""
    if not project.files.get(LISTED):
        return [Trouble(LISTED, 1, 'is missing')]
    with tempfile.TemporaryDirectory() as folder:
        made = os.path.join(folder, 'tankwright.pot')
        said = make_template(project.root, made)
        if said:
            return [Trouble(LISTED, 1, line) for line in said]
        with open(made, encoding='utf-8') as stream:
            messages = stream.read().count('\nmsgid ')
        checked = subprocess.run(['msgfmt', '-o', os.devnull, made], capture_output=True, text=True)
    if checked.returncode or messages < 2:
        return [Trouble(LISTED, 1, checked.stderr or 'the template is empty')]
    return []


def entries(text):
    """{keyword: text} of each message of a .po file, still escaped; 'fuzzy' is a keyword of those that are."""
    for block in re.split(r'\n\n+', text):
        entry, keyword = {}, None
        for line in block.split('\n'):
            match = ENTRY.match(line)
            if match:
                keyword = match.group(1)
                entry[keyword] = match.group(2)
            elif line.startswith('"') and keyword:
                entry[keyword] += line[1:-1]
            elif line.startswith('#,') and 'fuzzy' in line:
                entry['fuzzy'] = ''
        if entry.get('msgid'):
            yield entry


def placeholders(text):
    return sorted(match.group(1) or match.group() for match in PLACEHOLDER.finditer(text))


def fault(entry):
    """What is wrong with a message's translation, None if nothing is."""
    given = {keyword: text for keyword, text in entry.items() if keyword.startswith('msgstr')}
    if not given or not all(given.values()):
        return 'is not translated'
    for text in given.values():
        if entry['msgid'].count('_') != text.count('_'):
            return f'another number of _ in "{text}"'
        if 'msgid_plural' not in entry and placeholders(entry['msgid']) != placeholders(text):
            return f'other placeholders in "{text}"'
    return 'is fuzzy' if 'fuzzy' in entry else None


def lines_of(text):
    """{beginning of a message: its line} in a .po file."""
    return {line: number for number, line in enumerate(text.split('\n'), 1) if line.startswith('msgid ')}


def language(project, folder, path):
    """What is wrong with one .po file, the template standing in `folder`."""
    own = os.path.join(folder, path)
    merged = own + '.merged'
    done = subprocess.run(['msgmerge', '--quiet', '--no-fuzzy-matching', '--no-wrap', f'--output-file={merged}', own,
                           os.path.join(folder, 'tankwright.pot')], capture_output=True, text=True)
    if done.returncode:
        return [Trouble(path, 1, done.stderr.replace(own, path).strip())]
    with open(merged, encoding='utf-8') as stream:
        messages = list(entries(stream.read()))
    lines = lines_of(project.files[path])
    troubles = []
    for entry in messages:
        said = fault(entry)
        if said:
            line = lines.get(f'msgid "{entry["msgid"]}"', 1)
            troubles.append(Trouble(path, line, f'"{entry["msgid"]}" {said}', entry['msgid']))
    checked = subprocess.run(['msgfmt', '--check', '-o', os.devnull, merged], capture_output=True, text=True)
    if checked.returncode:
        troubles += [Trouble(path, 1, line.replace(merged, path)) for line in checked.stderr.splitlines()]
    return troubles


def languages(project):
    """Every language of po/LINGUAS has all words translated, with the same placeholders and mnemonics."""
    listed, names = ([line for line in (project.files.get(path) or '').split('\n') if line and line[0] != '#']
                     for path in (LISTED, 'po/LINGUAS'))
    troubles = []
    with tempfile.TemporaryDirectory() as folder:
        for path in [LISTED, *listed, *(f'po/{name}.po' for name in names)]:
            os.makedirs(os.path.dirname(os.path.join(folder, path)), exist_ok=True)
            with open(os.path.join(folder, path), 'w', encoding='utf-8') as stream:
                stream.write(project.files.get(path) or '')
        said = make_template(folder, os.path.join(folder, 'tankwright.pot'))
        if said:
            return [Trouble(LISTED, 1, line) for line in said]
        for path in (f'po/{name}.po' for name in names):
            troubles += language(project, folder, path) if project.files.get(path) else [Trouble(path, 1, 'is missing')]
    return troubles
