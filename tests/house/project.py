# SPDX-License-Identifier: GPL-3.0-or-later
"""The project's files as the rules see them, and what a rule says about them."""
import os
import subprocess
from dataclasses import dataclass

BINARY = ('.png', '.pdf', '.ico', '.gz', '.mo')


@dataclass(frozen=True)
class Trouble:
    """Where a rule is broken. `name` is the function, field or word within the file, if there is one."""
    path: str
    line: int
    text: str
    name: str = ''

    @property
    def key(self):
        return f'{self.path}:{self.name}' if self.name else self.path

    def __str__(self):
        return f'{self.path}:{self.line}: {self.text}'


class Project:
    """Paths with "/" from the top folder, each with its text (None for what is not text)."""

    def __init__(self, files, root=None, build=None):
        self.files = files
        self.root = root
        self.build = build

    @classmethod
    def read(cls, root, build):
        files = {}
        for path in list_files(root):
            if path.endswith(BINARY):
                files[path] = None
                continue
            with open(os.path.join(root, path), 'rb') as stream:
                data = stream.read()
            try:
                files[path] = data.decode('utf-8')
            except UnicodeDecodeError:
                files[path] = None
        return cls(files, root, build)

    def texts(self, *endings, under=''):
        """(path, text) of the text files under a folder, with one of the endings if any are given."""
        for path, text in sorted(self.files.items()):
            if text is not None and path.startswith(under) and (not endings or path.endswith(endings)):
                yield path, text

    def folder(self, path):
        """Folder of src/ that a file belongs to: `layout` for src/layout/passes.c; None for others."""
        parts = path.split('/')
        return parts[1] if parts[0] == 'src' and len(parts) > 2 else None


def list_files(root):
    """What belongs to the project: what git knows or would add; without git all but build folders."""
    try:
        listed = subprocess.run(['git', '-C', root, 'ls-files', '-z', '--cached', '--others', '--exclude-standard'],
                                capture_output=True, check=True)
        paths = listed.stdout.decode('utf-8').split('\0')
        paths = [p for p in paths if p and os.path.isfile(os.path.join(root, p))]
        if paths:
            return paths
    except (OSError, subprocess.CalledProcessError):
        pass
    paths = []
    for folder, folders, names in os.walk(root):
        at_top = os.path.samefile(folder, root)
        folders[:] = [f for f in folders
                      if f not in ('.git', '__pycache__') and not (at_top and (f == 'build' or f.startswith('build-')))]
        paths += [os.path.relpath(os.path.join(folder, n), root) for n in names]
    return paths
