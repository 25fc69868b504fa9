#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_hostile.py COMMAND SAMPLES: odd arguments, missing files, places that cannot be written; TAP.

Whatever is said to the command, it ends by itself with 1 or 2, says why, and every file is as it was."""
import os
import shutil
import stat
import subprocess
import sys
import tempfile

COMMAND, SAMPLES = os.path.abspath(sys.argv[1]), sys.argv[2]
ENV = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'WAYLAND_DISPLAY', 'DBUS_SESSION_BUS_ADDRESS')}
ENV['LC_ALL'] = 'C.UTF-8'
LONG = 'x' * 100000
BAY = ['--width', '920', '--height', '430', '--depth', '700']

# Name, words (JOB is a job file, FOLDER one that can be written, LOCKED one that cannot, FILE some other file,
# ABSENT nothing), end.
CASES = [
    ('no words', [], 2),
    ('an empty word', [''], 2),
    ('a long word', [LONG], 2),
    ('bytes that are no text', [b'\xff\xfe'], 2),
    ('only a dash', ['-'], 2),
    ('only two dashes', ['--'], 2),
    ('an option before the verb', ['--json', 'show', 'JOB'], 2),
    ('an empty file name', ['show', ''], 1),
    ('a long file name', ['show', LONG], 1),
    ('a file name of bytes', ['show', b'\xff.twjob'], 1),
    ('a folder for a file', ['show', 'FOLDER'], 1),
    ('nothing there', ['findings', 'ABSENT'], 1),
    ('nothing there, to be drawn', ['sheets', 'ABSENT', '-o', 'FOLDER'], 1),
    ('nothing there, to be set', ['set', 'ABSENT', 'job.name=a'], 1),
    ('a device without an end', ['show', '/dev/zero'], 1),
    ('what is no job', ['show', 'FILE'], 1),
    ('what is no job, to be set', ['set', 'FILE', 'job.name=a'], 1),
    ('one good and one absent file', ['check', 'JOB', 'ABSENT'], 1),
    ('a flow below nought', ['show', '--flow', '-5', 'JOB'], 1),
    ('a flow that is no number', ['show', '--flow', 'nan', 'JOB'], 1),
    ('a flow beyond all numbers', ['show', '--flow', '1e999', 'JOB'], 1),
    ('an empty panel', ['show', '-p', '', 'JOB'], 2),
    ('a long panel', ['show', '-p', LONG, 'JOB'], 2),
    ('a panel without a name', ['show', 'JOB', '-p'], 2),
    ('a picture nowhere', ['picture', 'JOB', '-o', 'ABSENT/a/b.png'], 1),
    ('a picture where none may be', ['picture', 'JOB', '-o', 'LOCKED/a.png'], 1),
    ('a picture on a folder', ['picture', 'JOB', '-o', 'FOLDER'], 2),
    ('a picture with an empty name', ['picture', 'JOB', '-o', ''], 2),
    ('a picture of no known kind', ['picture', 'JOB', '-o', 'FOLDER/a.jpeg'], 2),
    ('a picture over the job', ['picture', 'JOB', '-o', 'JOB'], 2),
    ('a picture over the job by another name', ['picture', 'JOB', '-o', 'LINK.png'], 1),
    ('a picture by a name that leads to the job', ['picture', 'JOB', '-o', 'SYMLINK.svg'], 1),
    ('a picture of no width', ['picture', 'JOB', '-o', 'FOLDER/a.png', '--width', '0'], 2),
    ('a picture of a width below nought', ['picture', 'JOB', '-o', 'FOLDER/a.png', '--width', '-100'], 2),
    ('a picture wider than any', ['picture', 'JOB', '-o', 'FOLDER/a.png', '--width', '99999999999999'], 2),
    ('a picture as wide as words', ['picture', 'JOB', '-o', 'FOLDER/a.png', '--width', 'wide'], 2),
    ('a picture of a core by a long name', ['picture', 'JOB', '-o', 'FOLDER/a.png', '--core', LONG], 2),
    ('a picture of a port', ['picture', 'JOB', '-o', 'FOLDER/a.png', '--core', 'inlet'], 1),
    ('sheets where none may be', ['sheets', 'JOB', '-o', 'LOCKED'], 1),
    ('sheets in a folder that cannot be made', ['sheets', 'JOB', '-o', 'LOCKED/a/b'], 1),
    ('sheets on a file', ['sheets', 'JOB', '-o', 'FILE'], 1),
    ('sheets below a file', ['sheets', 'JOB', '-o', 'FILE/a'], 1),
    ('sheets in a folder without a name', ['sheets', 'JOB', '-o', ''], 1),
    ('sheets over the job', ['sheets', 'FOLDER/job.pdf', '-o', 'FOLDER'], 1),
    ('sheets on paper that there is not', ['sheets', 'JOB', '-o', 'FOLDER', '--paper', LONG], 1),
    ('sheets of no format', ['sheets', 'JOB', '-o', 'FOLDER', '--format', ''], 2),
    ('sheets of half a format', ['sheets', 'JOB', '-o', 'FOLDER', '--format', 'pdf,'], 2),
    ('a figure beyond its range', ['set', 'JOB', 'left-tank.wall_mm=1e300'], 1),
    ('a figure below its range', ['set', 'JOB', 'left-tank.wall_mm=-2'], 1),
    ('a figure that is no number', ['set', 'JOB', 'left-tank.wall_mm=nan'], 1),
    ('a figure of many digits', ['set', 'JOB', 'left-tank.wall_mm=' + '9' * 5000], 1),
    ('a long text', ['set', 'JOB', 'job.name=' + LONG], 1),
    ('a text of bytes', ['set', 'JOB', b'job.name=\xff'], 1),
    ('a text of two lines and a bell', ['set', 'JOB', 'job.name=a\ab'], 1),
    ('a part of bytes', ['set', 'JOB', b'\xff.wall_mm=2'], 1),
    ('a part without a name', ['set', 'JOB', '.wall_mm=2'], 1),
    ('a field without a name', ['set', 'JOB', 'left-tank.=2'], 1),
    ('neither', ['set', 'JOB', '.='], 1),
    ('an element that there is not', ['set', 'JOB', 'bay/corner-99.up_mm=2'], 1),
    ('a slash too many', ['set', 'JOB', 'bay/corner-1/x.up_mm=2'], 1),
    ('an outline that crosses itself', ['set', 'JOB', 'bay/corner-2.across_mm=-2000'], 1),
    ('one of many that cannot be', ['set', 'JOB', 'job.name=b', 'left-tank.wall_mm=2.5', 'x.y=1'], 1),
    ('set to where nothing may be', ['set', 'JOB', 'job.name=b', '-o', 'LOCKED/a.twjob'], 1),
    ('set to a folder', ['set', 'JOB', 'job.name=b', '-o', 'FOLDER'], 1),
    ('set to nowhere', ['set', 'JOB', 'job.name=b', '-o', 'ABSENT/a.twjob'], 1),
    ('a bay of nothing', ['new', '--width', '0', '--height', '0', '--depth', '0'], 1),
    ('a bay below nought', ['new', '--width', '-920', '--height', '430', '--depth', '700'], 1),
    ('a bay beyond all numbers', ['new', '--width', '1e999', '--height', '430', '--depth', '700'], 1),
    ('a bay that is no number', ['new', '--width', 'nan', '--height', '430', '--depth', '700'], 1),
    ('a bay in a long word', ['new', '--width', LONG, '--height', '430', '--depth', '700'], 1),
    ('a name too long', ['new', *BAY, '--name', LONG], 1),
    ('a new job where none may be', ['new', *BAY, '-o', 'LOCKED/a.twjob'], 1),
    ('a new job on a folder', ['new', *BAY, '-o', 'FOLDER'], 1),
]


class Place:
    """A folder in which a case is played, made afresh."""

    def __init__(self, root):
        self.names = {'ABSENT': os.path.join(root, 'absent'), 'FILE': os.path.join(root, 'file.txt'),
                      'FOLDER': os.path.join(root, 'folder'), 'JOB': os.path.join(root, 'job.twjob'),
                      'LINK': os.path.join(root, 'link'), 'LOCKED': os.path.join(root, 'locked'),
                      'SYMLINK': os.path.join(root, 'symlink')}
        self.root = root
        for folder in ('FOLDER', 'LOCKED'):
            os.mkdir(self.names[folder])
        with open(self.names['FILE'], 'w', encoding='utf-8') as stream:
            stream.write('no job\n')
        for path in (self.names['JOB'], os.path.join(self.names['FOLDER'], 'job.pdf')):
            shutil.copyfile(os.path.join(SAMPLES, 'merlin-tail.twjob'), path)
        os.link(self.names['JOB'], self.names['LINK'] + '.png')
        os.symlink(self.names['JOB'], self.names['SYMLINK'] + '.svg')
        os.chmod(self.names['LOCKED'], stat.S_IRUSR | stat.S_IXUSR)

    def word(self, word):
        if isinstance(word, bytes):
            return word
        for name in sorted(self.names, key=len, reverse=True):
            if word == name or word.startswith((name + '/', name + '.')):
                return (self.names[name] + word[len(name):]).encode()
        return word.encode()

    def state(self):
        held = {}
        for folder, _, names in os.walk(self.root):
            held[folder] = None
            for name in names:
                path = os.path.join(folder, name)
                with open(path, 'rb') as stream:
                    held[path] = os.readlink(path) if os.path.islink(path) else stream.read()
        return held


def as_anybody(command):
    """Root may write everywhere: it tries the locked folder as nobody in particular."""
    if os.geteuid() != 0 or shutil.which('setpriv') is None:
        return command
    return ['setpriv', '--reuid=65534', '--regid=65534', '--clear-groups', *command]


def play(words, end):
    with tempfile.TemporaryDirectory() as root:
        os.chmod(root, 0o777)
        place = Place(root)
        locked = any(isinstance(word, str) and word.startswith('LOCKED') for word in words)
        command = [COMMAND, *map(place.word, words)]
        before = place.state()
        done = subprocess.run(as_anybody(command) if locked else command, stdin=subprocess.DEVNULL, cwd=root,
                              capture_output=True, env=ENV, timeout=60, check=False)
        said = done.stderr.decode('utf-8', 'replace')
        if done.returncode != end:
            return f'ended with {done.returncode}, not {end}: {said[:300]}'
        if said.strip() == '' or 'CRITICAL' in said or 'WARNING' in said:
            return f'said {said[:300]!r}'
        if len(said) > 2 * len(LONG):
            return f'said {len(said)} bytes'
        return '' if place.state() == before else 'left other files behind'


def full():
    """Nothing is said to have been written that was not."""
    words = (['show', 'JOB'], ['show', '--json', 'JOB'], ['check', 'JOB'], ['findings', 'JOB'],
             ['picture', 'JOB', '-o', '-'], ['set', 'JOB', 'job.name=b', '-o', '-'], ['new', *BAY])
    with tempfile.TemporaryDirectory() as root:
        place = Place(root)
        for line in words:
            with open('/dev/full', 'wb') as stream:
                done = subprocess.run([COMMAND, *map(place.word, line)], stdin=subprocess.DEVNULL, stdout=stream,
                                      stderr=subprocess.PIPE, env=ENV, timeout=60, check=False)
            if done.returncode != 1 or done.stderr == b'':
                return f'{line[0]}: ended with {done.returncode}, said {done.stderr[:200]!r}'
    return ''


def main():
    print(f'1..{len(CASES) + 1}')
    failed = False
    for nth, (name, words, end) in enumerate(CASES, 1):
        trouble = play(words, end)
        print(f'{"not " if trouble else ""}ok {nth} - {name}')
        if trouble:
            failed = True
            print('# ' + trouble.replace('\n', '\n# '))
    trouble = full()
    print(f'{"not " if trouble else ""}ok {len(CASES) + 1} - output that cannot be written')
    if trouble:
        print('# ' + trouble)
    return failed or trouble != ''


sys.exit(main())
