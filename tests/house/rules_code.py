# SPDX-License-Identifier: GPL-3.0-or-later
"""Rules on C: layers, headers, sizes, numbers."""
import hashlib
import json
import os
import re
import shlex
import subprocess
from concurrent.futures import ThreadPoolExecutor

import c_text
from project import Trouble

# Lowest first; folders of one line do not see each other.
LAYERS = [['base'], ['job'], ['layout'], ['cooling', 'metal'], ['findings'], ['answer'], ['propose'], ['cards'],
          ['draw'], ['sheets', 'stage'], ['app', 'cli']]
HEIGHT = {folder: i for i, line in enumerate(LAYERS) for folder in line}
INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"]+)[>"]', re.M)
TOOLKIT = re.compile(r'^(gtk|gdk|gsk|adwaita|adw|libadwaita)\b')
BELOW_APP = re.compile(r'\b(G_DEFINE_(?:FINAL_)?TYPE\w*|G_DECLARE_\w+|GObject|g_object_\w+|GThread\w*|GTask|g_task_\w+'
                       r'|g_thread_\w+|pthread_\w+|GMainLoop|g_idle_add\w*|g_timeout_add\w*)\b')

FILE_LINES, WIDGET_LINES, FUNCTION_LINES, ARGUMENTS, NESTING = 400, 600, 60, 6, 3

SUFFIX = re.compile(
    r'_(mm|mm2|mm3|mm4|m|m2|m3|um|pt|px|in|l|ml|rad|deg|turns|k|c|k_m|w|kw|pa|kpa|mpa|n|n_m|n_mm|kg|g|kg_s|kg_m3|m3_s|m3_h'
    r'|l_min|l_h|m_s|m_s2|mm_s|s|ms|us|min|h|hz|rpm|rad_s|v|a|ohm|w_k|w_m_k|w_m2_k|j|kj|j_kg_k|kj_kg_k|pa_s|m2_s|m2_k_w'
    r'|pa_s_kg|per_\w+|mm_px|px_mm|dpi)$')
SAID = re.compile(r'dimensionless|\bunits?\b|millimet|\bmm\b|pixel|\bradians\b', re.I)

# The unit that a field's name ends in, by its quantity: job/fields/*.inc, base/units.h.
FIELD = re.compile(r'^TW_FIELD\s*\(\s*(\w+)\s*,\s*(\w+)', re.M)
QUANTITY_SUFFIX = {'LENGTH': '_mm', 'AREA': '_mm2', 'VOLUME': '_l', 'ANGLE': '_deg', 'SPEED': '_m_s', 'WATER_FLOW': '_l_min',
                   'AIR_FLOW': '_m3_s', 'PRESSURE': '_kpa', 'AIR_PRESSURE': '_pa', 'TEMPERATURE': '_c', 'POWER': '_kw',
                   'MASS': '_kg', 'TIME': '_s', 'VOLTAGE': '_v', 'CURRENT': '_a'}

FLOAT_FORMAT = re.compile(r'%[-+ #0\']*(?:\d+|\*)?(?:\.(?:\d+|\*)?)?[lL]?[feEgGaA]')
LOCALE_READERS = re.compile(r'\b(strtod|strtof|strtold|atof|sscanf|fscanf)\s*\(')


def sources(project, *endings):
    return project.texts(*(endings or ('.c', '.h')), under='src/')


def layers(project):
    """A folder includes only what stands above it; GTK, GObject and threads stay in app; private headers at home."""
    troubles = []
    for path, text in project.texts('.c', '.h', '.inc'):
        home = project.folder(path) or (path.split('/')[1] if path.startswith('tests/') else None)
        in_src = path.startswith('src/')
        for match in INCLUDE.finditer(c_text.without_comments(text)):
            line, name = c_text.line_of(text, match.start()), match.group(2)
            folder = name.split('/')[0] if '/' in name else None
            if match.group(1) == '"' and in_src and folder not in HEIGHT:
                troubles.append(Trouble(path, line, f'"{name}": say the folder, as in "base/units.h"'))
            if in_src and match.group(1) == '"' and folder in HEIGHT and folder != home:
                if home not in HEIGHT:
                    troubles.append(Trouble(path, line, f'{home} is not a folder of the layer table'))
                elif HEIGHT[folder] >= HEIGHT[home]:
                    troubles.append(Trouble(path, line, f'{home} may not use {folder} ("{name}")'))
            if name.endswith('-private.h') and folder not in (None, home):
                troubles.append(Trouble(path, line, f'"{name}" is private to {folder}'))
            if in_src and name.endswith('-private.h') and path.endswith('.h') and not path.endswith('-private.h'):
                troubles.append(Trouble(path, line, f'a public header includes the private "{name}"'))
            if in_src and home != 'app' and match.group(1) == '<' and TOOLKIT.match(name):
                troubles.append(Trouble(path, line, f'only app knows the toolkit (<{name}>)'))
    for path, text in sources(project):
        if project.folder(path) in ('app', None):
            continue
        for match in BELOW_APP.finditer(c_text.code_only(text)):
            troubles.append(Trouble(path, c_text.line_of(text, match.start()),
                                    f'no object, thread or main loop below app ({match.group()})', match.group()))
    return troubles + layer_table(project)


def layer_table(project):
    """The table of src/meson.build says the same."""
    text = project.files.get('src/meson.build') or ''
    troubles = []
    for match in re.finditer(r"^\s*\['(\w+)',\s*\[([^\]]*)\]", text, re.M):
        folder = match.group(1)
        for other in re.findall(r"'(\w+)'", match.group(2)):
            if folder not in HEIGHT or other not in HEIGHT or HEIGHT[other] >= HEIGHT[folder]:
                troubles.append(Trouble('src/meson.build', c_text.line_of(text, match.start()),
                                        f'{folder} may not link {other}'))
    return troubles


def headers(project):
    """Every prototype, struct and enum of a header is explained; every header begins with what it is for."""
    troubles = []
    for path, text in sources(project, '.h'):
        for item in c_text.prototypes(text):
            name, _ = c_text.name_and_arguments(item.text)
            if re.search(r'_(free|ref|unref|quark|get_type)$', name):
                continue
            if not explained(text, item):
                troubles.append(Trouble(path, c_text.line_of(text, item.start), f'{name} is not explained', name))
        for item in c_text.items(text):
            if item.body >= 0 and re.match(r'(typedef\s+)?(struct|enum|union)\b', item.text):
                inside = any(item.body < place < item.end for place, _ in c_text.comments(text))
                if not inside and not explained(text, item):
                    name = (re.search(r'(\w+)\s*;\s*$', item.text) or re.search(r'(\w+)', item.text)).group(1)
                    troubles.append(Trouble(path, c_text.line_of(text, item.start), f'{name} is not explained', name))
        title = f'{os.path.basename(path)} - '
        if not any(title in c for _, c in c_text.comments(text)[:2]):
            troubles.append(Trouble(path, 1, f'begin with a comment "{title}what it is for"'))
        if '#pragma once' not in text:
            troubles.append(Trouble(path, 1, '#pragma once is missing'))
    return troubles


def explained(text, item):
    """Whether a comment stands in the paragraph of the item, or as a paragraph of its own just before."""
    end = text.find('\n', item.end)
    start = text.rfind('\n\n', 0, item.start) + 1
    return any(start <= place < end or place + len(c) == start - 1 for place, c in c_text.comments(text))


def units(project):
    """A double member carries its unit in its name, or is said to have none."""
    troubles = []
    for path, text in sources(project):
        for field in c_text.double_fields(text):
            if not SUFFIX.search(field.name) and not SAID.search(field.said):
                troubles.append(Trouble(path, field.line, f'{field.struct}.{field.name}: end in the unit, or say '
                                        '"dimensionless" (or which unit) in its comment', field.name))
    for path, text in sources(project, '.inc'):
        for match in FIELD.finditer(text):
            suffix = QUANTITY_SUFFIX.get(match.group(1), '')
            if not match.group(2).endswith(suffix):
                troubles.append(Trouble(path, c_text.line_of(text, match.start()),
                                        f'{match.group(2)} is a {match.group(1)}: end in {suffix}', match.group(2)))
    return troubles


def size(project):
    """Marks to hold: lines of a file and of a function, arguments, nesting."""
    troubles = []
    for path, text in sources(project, '.c', '.h', '.inc'):
        lines = text.count('\n')
        most = WIDGET_LINES if project.folder(path) == 'app' else FILE_LINES
        if lines > most:
            troubles.append(Trouble(path, lines, f'{lines} lines, {most} at most: two files'))
        for f in c_text.functions(text):
            for what, n, most in (('lines', f.lines, FUNCTION_LINES), ('arguments', f.arguments, ARGUMENTS),
                                  ('levels of nesting', f.nesting, NESTING)):
                if n > most:
                    troubles.append(Trouble(path, f.line, f'{f.name} has {n} {what}, {most} at most', f.name))
        if path.endswith('.h'):
            for item in c_text.prototypes(text):
                name, n = c_text.name_and_arguments(item.text)
                if n > ARGUMENTS:
                    troubles.append(Trouble(path, c_text.line_of(text, item.start),
                                            f'{name} has {n} arguments, {ARGUMENTS} at most', name))
    return troubles


def numbers(project):
    """Doubles become text in base only, where the locale is known; text becomes a double there too."""
    troubles = []
    for path, text in sources(project):
        if project.folder(path) == 'base':
            continue
        plain = c_text.without_comments(text)
        for match in re.finditer(r'"(?:\\.|[^"\\\n])*"', plain):
            found = FLOAT_FORMAT.search(match.group().replace('%%', ''))
            call = plain[plain.rfind(';', 0, match.start()) + 1:match.start()]
            if found and 'g_ascii_' not in call:
                troubles.append(Trouble(path, c_text.line_of(text, match.start()),
                                        f'{found.group()} follows the locale: base/units.h writes numbers'))
        for match in LOCALE_READERS.finditer(c_text.code_only(text)):
            troubles.append(Trouble(path, c_text.line_of(text, match.start()),
                                    f'{match.group(1)} follows the locale: base/units.h and g_ascii_strtod read numbers'))
    return troubles


def names(project):
    """Front doors are tw_<something>(), types Tw…, constants TW_…; callbacks end in _cb."""
    troubles = []
    for path, text in sources(project, '.h'):
        for item in c_text.items(text):
            if item.body < 0 and not re.match(r'typedef\b', item.text) and re.search(r'\w\s*\(', item.text):
                name, _ = c_text.name_and_arguments(item.text)
                if not name.startswith(('tw_', 'G_')):
                    troubles.append(Trouble(path, c_text.line_of(text, item.start), f'{name}: tw_…', name))
            named = re.match(r'typedef\b.*?(\w+)\s*;\s*$', item.text, re.S)
            if named and not named.group(1).startswith('Tw') and '(' not in item.text:
                troubles.append(Trouble(path, c_text.line_of(text, item.start), f'{named.group(1)}: Tw…', named.group(1)))
        for match in re.finditer(r'^[ \t]*#define[ \t]+(\w+)', text, re.M):
            if not match.group(1).startswith(('TW_', 'GETTEXT_', 'G_LOG_DOMAIN')):
                troubles.append(Trouble(path, c_text.line_of(text, match.start()), f'{match.group(1)}: TW_…',
                                        match.group(1)))
    return troubles


def alone(project):
    """Every header compiles by itself."""
    with open(os.path.join(project.build, 'compile_commands.json'), encoding='utf-8') as stream:
        commands = json.load(stream)
    flags = {}
    for entry in commands:
        path = os.path.relpath(os.path.join(entry['directory'], entry['file']), project.root)
        words = shlex.split(entry['command'])
        kept = [w for w in words[1:] if w.startswith(('-I', '-isystem', '-D', '-std=', '-pthread'))]
        if project.folder(path) and len(kept) > len(flags.get(project.folder(path), [])):
            flags[project.folder(path)] = kept
    toolkit = subprocess.run(['pkg-config', '--cflags', 'libadwaita-1'], capture_output=True, text=True).stdout.split()
    longest = max(flags.values(), key=len, default=[]) + toolkit   # for a folder that has headers only so far

    def compiled(path):
        command = [os.environ.get('CC', 'cc'), '-fsyntax-only', '-Wall', '-Wextra', '-Werror', '-Wno-unused-parameter',
                   '-x', 'c', *flags.get(project.folder(path), longest),
                   '-include', os.path.join(project.root, path), os.devnull]
        key = hashlib.sha256('\n'.join(command + with_included(project, path)).encode()).hexdigest()
        if key in known:
            return path, key, ''
        done = subprocess.run(command, cwd=project.build, capture_output=True, text=True)
        return path, key, done.stderr or 'fails' if done.returncode else ''

    memory = os.path.join(project.build, 'headers-alone.json')   # what compiled once need not be compiled again
    known = json.load(open(memory, encoding='utf-8')) if os.path.exists(memory) else []
    troubles, good = [], []
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        for path, key, said in pool.map(compiled, [p for p, _ in sources(project, '.h')]):
            if said:
                first = next((line for line in said.splitlines() if 'error' in line), said)
                troubles.append(Trouble(path, 1, f'does not compile by itself: {first}'))
            else:
                good.append(key)
    with open(memory, 'w', encoding='utf-8') as stream:
        json.dump(good, stream)
    return troubles


def with_included(project, path, seen=None):
    """Texts of a header and of all of ours that it includes."""
    seen = {path} if seen is None else seen
    texts = [project.files[path]]
    for match in INCLUDE.finditer(project.files[path]):
        included = 'src/' + match.group(2)
        if project.files.get(included) is not None and included not in seen:
            seen.add(included)
            texts += with_included(project, included, seen)
    return texts


def layout_of_code(project):
    """clang-format has nothing to change."""
    program = 'clang-format-14'
    paths = [p for p, _ in project.texts('.c', '.h') if p.startswith(('src/', 'tests/'))]
    if not paths:
        return []
    done = subprocess.run([program, '--dry-run', '--Werror', '-style=file', *paths], cwd=project.root,
                          capture_output=True, text=True)
    found = re.findall(r'^(\S+?):(\d+):\d+: error: code should be clang-formatted', done.stderr, re.M)
    if done.returncode and not found:
        return [Trouble('.clang-format', 1, done.stderr.strip())]
    first = {}
    for path, line in found:
        first.setdefault(path, int(line))
    return [Trouble(path, line, f'differs from {program} -style=file from here on') for path, line in first.items()]
