#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""validate.py SOURCE-FOLDER BUILD-FOLDER: what the desktop reads of us is right by the desktop's own tools; TAP.

A tool that is not installed is a skip, with CI=true a failure.
"""
import configparser
import os
import shutil
import subprocess
import sys
import tempfile

from project import Project

APP = 'org.tankwright.Tankwright'


def checks(root, build):
    """(what, command) of each check. A command that writes to stderr fails like one that ends badly."""
    data = os.path.join(build, 'data')
    project = Project.read(root, build)
    yield 'desktop entry', ['desktop-file-validate', os.path.join(data, APP + '.desktop')]
    yield 'metainfo', ['appstreamcli', 'validate', '--no-net', os.path.join(data, APP + '.metainfo.xml')]
    yield 'settings', ['glib-compile-schemas', '--strict', '--dry-run', os.path.join(root, 'data')]
    yield 'media type', ['xmllint', '--noout', os.path.join(data, APP + '.mime.xml')]
    for path, _ in project.texts('.svg', '.ui', '.gresource.xml'):
        yield path, ['xmllint', '--noout', os.path.join(root, path)]
    for path, _ in project.texts('.1', under='data/'):
        yield path, ['groff', '-man', '-Tutf8', '-ww', '-z', os.path.join(root, path)]


def media_type_found(build):
    """The installed description makes a .twjob file our type, which is JSON at heart."""
    with tempfile.TemporaryDirectory() as home:
        packages = os.path.join(home, 'mime', 'packages')
        os.makedirs(packages)
        shutil.copy(os.path.join(build, 'data', APP + '.mime.xml'), packages)
        subprocess.run(['update-mime-database', os.path.join(home, 'mime')], check=True, capture_output=True)
        with open(os.path.join(home, 'mime', 'globs2'), encoding='utf-8') as stream:
            globs = stream.read()
        with open(os.path.join(home, 'mime', 'subclasses'), encoding='utf-8') as stream:
            subclasses = stream.read()
    return ('application/vnd.tankwright.job+json:*.twjob' in globs and
            'application/vnd.tankwright.job+json application/json' in subclasses)


def thumbnailer_found(root):
    """The desktop's small pictures: one group, our type, a command whose words are filled in."""
    entry = configparser.RawConfigParser()
    entry.optionxform = str
    entry.read(os.path.join(root, 'data', APP + '.thumbnailer'), encoding='utf-8')
    group = dict(entry['Thumbnailer Entry'])
    words = group['Exec'].split()
    return (entry.sections() == ['Thumbnailer Entry'] and group['TryExec'] == words[0] == 'tankwright-cli' and
            {'%i', '%o', '%s'} <= set(words) and group['MimeType'] == 'application/vnd.tankwright.job+json;')


def main(root, build):
    number = 0
    for what, command in checks(root, build):
        number += 1
        if shutil.which(command[0]) is None:
            missing = f'{command[0]} is not installed'
            print(f'not ok {number} - {what}: {missing}' if os.environ.get('CI') == 'true'
                  else f'ok {number} - {what} # SKIP {missing}')
            continue
        done = subprocess.run(command, capture_output=True, text=True)
        good = done.returncode == 0 and not done.stderr.strip()
        print(f'{"ok" if good else "not ok"} {number} - {what}')
        if not good:
            for line in (done.stdout + done.stderr).splitlines():
                print(f'# {line}')
    print(f'{"ok" if media_type_found(build) else "not ok"} {number + 1} - *.twjob is our media type')
    print(f'{"ok" if thumbnailer_found(root) else "not ok"} {number + 2} - small pictures are made by our command')
    print(f'1..{number + 2}')


if __name__ == '__main__':
    main(os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]))
