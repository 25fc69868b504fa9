# SPDX-License-Identifier: GPL-3.0-or-later
"""Enough reading of C for the rules: not a compiler, but it knows comments, strings, brackets and statements."""
import re
from dataclasses import dataclass

TOKEN = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)
DIRECTIVE = re.compile(r'^[ \t]*#(?:[^\n\\]|\\.|\\\n)*', re.M)
BARE_MACRO = re.compile(r'^(?:G_BEGIN_DECLS|G_END_DECLS|(?:G_DEFINE|G_DECLARE)\w*\s*\([^;{]*?\))[ \t]*;?[ \t]*$', re.M)
LOOPS = {'for', 'while', 'switch'}


def spaces(text):
    return re.sub(r'[^\n]', ' ', text)


def without_comments(text):
    """The same text, comments blanked; places stay."""
    return TOKEN.sub(lambda m: spaces(m.group()) if m.group().startswith('/') else m.group(), text)


def code_only(text):
    """The same text with comments, strings and directives blanked; places stay."""
    text = TOKEN.sub(lambda m: spaces(m.group()), text)
    return DIRECTIVE.sub(lambda m: spaces(m.group()), text)


def comments(text):
    """(start, comment) of each comment."""
    return [(m.start(), m.group()) for m in TOKEN.finditer(text) if m.group().startswith('/')]


def line_of(text, place):
    return text.count('\n', 0, place) + 1


def closing(text, place):
    """Place of the bracket that closes the one at `place`; the end of the text if none does."""
    opens, closes = text[place], {'(': ')', '{': '}', '[': ']'}[text[place]]
    depth = 0
    for i in range(place, len(text)):
        if text[i] == opens:
            depth += 1
        elif text[i] == closes:
            depth -= 1
            if depth == 0:
                return i
    return len(text)


@dataclass(frozen=True)
class Item:
    """A declaration or definition at file scope; `body` is the place of its brace or -1."""
    start: int
    end: int
    text: str
    body: int


def items(text):
    """The declarations and definitions of a file, in order."""
    code = code_only(text)
    code = re.sub(r'extern\s*"?\s*"?\s*\{', spaces('extern'), code)
    code = BARE_MACRO.sub(lambda m: spaces(m.group()), code)
    found, start, body, i = [], None, -1, 0
    while i < len(code):
        sign = code[i]
        if start is None and not sign.isspace():
            start, body = i, -1
        if sign in '([':
            i = closing(code, i)
        elif sign == '{':
            body = i if body < 0 else body
            i = closing(code, i)
            head = code[start:body]
            if is_function(head):
                found.append(Item(start, i + 1, code[start:i + 1], body))
                start = None
        elif sign == ';':
            found.append(Item(start, i + 1, code[start:i + 1], body))
            start = None
        i += 1
    return found


def is_function(head):
    """Whether what stands before a brace is the head of a function definition."""
    return '=' not in head and not re.match(r'\s*(typedef|struct|enum|union)\b[^(]*$', head) and '(' in head


@dataclass(frozen=True)
class Function:
    name: str
    line: int
    lines: int       # from brace to brace
    arguments: int
    nesting: int     # 0: no if, loop or switch in it


def functions(text):
    """The functions that a file defines."""
    found = []
    for item in items(text):
        if item.body < 0 or not is_function(item.text[:item.body - item.start]):
            continue
        head = item.text[:item.body - item.start]
        name, arguments = name_and_arguments(head)
        body = item.text[item.body - item.start:]
        lines = body.count('\n') - 1 if '\n' in body else 1
        found.append(Function(name, line_of(text, item.start), lines, arguments, nesting(body)))
    return found


def name_and_arguments(head):
    """Name and number of arguments of a function's head or prototype."""
    match = re.search(r'(\w+)\s*\(', head)
    inside = head[match.end():closing(head, match.end() - 1)]
    if inside.strip() in ('', 'void'):
        return match.group(1), 0
    depth = count = 0
    for sign in inside:
        depth += sign in '([{'
        depth -= sign in ')]}'
        count += sign == ',' and depth == 0
    return match.group(1), count + 1


def prototypes(text):
    """Items of a header that declare a function."""
    return [i for i in items(text)
            if i.body < 0 and not re.match(r'typedef\b', i.text) and re.search(r'\w\s*\(', i.text)]


def nesting(body):
    """How deep ifs, loops and switches stand inside one another. An else-if chain is one level."""
    tokens = re.findall(r'\w+|[(){};]|[^\s\w]', body)
    deepest = 0

    def skip(i):
        """Past the bracket that starts at i."""
        opens, closes, depth = tokens[i], {'(': ')', '{': '}'}[tokens[i]], 0
        while i < len(tokens):
            depth += tokens[i] == opens
            depth -= tokens[i] == closes
            i += 1
            if depth == 0:
                break
        return i

    def block(i, level):
        while i < len(tokens) and tokens[i] != '}':
            i = statement(i, level)
        return i + 1

    def plain(i):
        """Past an ordinary statement, braces of an initializer included."""
        while i < len(tokens) and tokens[i] not in (';', '}'):
            i = skip(i) if tokens[i] in '({' else i + 1
        return i + 1 if i < len(tokens) and tokens[i] == ';' else i

    def deeper(level):
        nonlocal deepest
        deepest = max(deepest, level + 1)
        return level + 1

    def statement(i, level):
        word = tokens[i]
        if word == '{':
            return block(i + 1, level)
        if word == 'if':
            i = statement(skip(i + 1), deeper(level))
            if i < len(tokens) and tokens[i] == 'else':
                chained = i + 1 < len(tokens) and tokens[i + 1] == 'if'
                i = statement(i + 1, level if chained else level + 1)
            return i
        if word in LOOPS:
            return statement(skip(i + 1), deeper(level))
        if word == 'do':
            return plain(statement(i + 1, deeper(level)))
        after = skip(i + 1) if i + 1 < len(tokens) and tokens[i + 1] == '(' else i
        if after > i and after < len(tokens) and tokens[after] == '{':   # a macro that loops
            return statement(after, deeper(level))
        return plain(i)

    block(1, 0)
    return deepest


@dataclass(frozen=True)
class Field:
    name: str
    line: int
    struct: str       # its name, or the line where it begins
    said: str         # the comments before it, on its lines, and those before the struct


def double_fields(text):
    """The double members of every struct or union of a file, with what is said about them."""
    found = []
    for match in re.finditer(r'\b(?:struct|union)\b(\s+\w+)?\s*\{', code_only(text)):
        start = match.end() - 1
        end = closing(code_only(text), start)
        name = (match.group(1) or '').strip() or re.match(r'\}?\s*(\w*)', code_only(text)[end:]).group(1)
        before = comment_before(text, match.start())
        notes = [(line_of(text, p + len(c)), line_of(text, p), c) for p, c in comments(text)]
        for inner in re.finditer(r'(?:^|[;{])\s*(?:const\s+)?double\s+([^;{}()]*);', code_only(text)[start:end]):
            line = line_of(text, start + inner.start(1))
            said = before + ' '.join(c for ends, begins, c in notes if ends == line - 1 or begins == line)
            for declared in inner.group(1).split(','):
                field = re.match(r'[\s*]*(\w+)', declared)
                if field:
                    found.append(Field(field.group(1), line, name, said))
    return found


def comment_before(text, place):
    """The comments in the paragraph (no empty line) that ends with the line of `place`."""
    start = text.rfind('\n\n', 0, place) + 1
    return ' '.join(c for p, c in comments(text) if start <= p < place)
