#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""installed.py SOURCE-FOLDER BUILD-FOLDER: installs into a folder of its own and looks at what is there; TAP."""
import json
import os
import re
import subprocess
import sys
import tempfile

from project import Project

APP = 'org.tankwright.Tankwright'


def expected(project):
    """Paths below the prefix: what the desktop reads, and every data file of ours at its own place."""
    yield from ('bin/tankwright', 'bin/tankwright-cli',
                f'share/applications/{APP}.desktop', f'share/metainfo/{APP}.metainfo.xml',
                f'share/mime/packages/{APP}.mime.xml', f'share/thumbnailers/{APP}.thumbnailer',
                f'share/glib-2.0/schemas/{APP}.gschema.xml')
    for path in sorted(project.files):
        if path.startswith('data/icons/hicolor/'):
            yield path.replace('data/', 'share/', 1)
        elif path.startswith('data/') and path.endswith('.1'):
            yield path.replace('data/', 'share/man/man1/', 1)
        elif path.startswith('data/') and path.endswith('.json'):
            yield path.replace('data/', 'share/tankwright/', 1)
        elif path.startswith('data/help/'):
            yield path.replace('data/', 'share/tankwright/', 1)
        elif path.startswith('samples/') and path.endswith(('.twjob', '.md')):
            yield 'share/tankwright/' + path


def prefix_of(build):
    with open(os.path.join(build, 'meson-info', 'intro-buildoptions.json'), encoding='utf-8') as stream:
        return next(option['value'] for option in json.load(stream) if option['name'] == 'prefix')


class Tap:
    def __init__(self):
        self.number = 0

    def line(self, good, what, said=''):
        self.number += 1
        print(f'{"ok" if good else "not ok"} {self.number} - {what}')
        if not good:
            for line in str(said).splitlines():
                print(f'# {line}')


def run(command, **more):
    if '/' in command[0] and not os.access(command[0], os.X_OK):
        return False, f'{command[0]} is not there'
    done = subprocess.run(command, capture_output=True, text=True, **more)
    return done.returncode == 0, done.stdout + done.stderr


def main(root, build):
    tap = Tap()
    project = Project.read(root, build)
    with tempfile.TemporaryDirectory() as folder:
        good, said = run(['meson', 'install', '-C', build, '--no-rebuild', '--destdir', folder])
        tap.line(good, 'installs', said)
        prefix = folder + prefix_of(build)
        bin_folder = os.path.join(prefix, 'bin')
        there = {os.path.relpath(os.path.join(at, name), prefix) for at, _, names in os.walk(prefix) for name in names}
        for path in expected(project):
            tap.line(path in there, path, 'is not installed')

        share = os.path.join(prefix, 'share')
        tap.line(*check(run(['glib-compile-schemas', '--strict', os.path.join(share, 'glib-2.0', 'schemas')]),
                        'the settings compile where they are installed'))
        with open(os.path.join(share, 'applications', APP + '.desktop'), encoding='utf-8') as stream:
            command = re.search(r'^Exec=(\S+)', stream.read(), re.M).group(1)
        cli = os.path.join(bin_folder, 'tankwright-cli')
        program = os.path.join(bin_folder, command)
        tap.line(os.access(program, os.X_OK), f'the desktop entry starts an installed program ({command})')

        # Nothing says where the data are: the programs find what lies beside them.
        env = {k: v for k, v in os.environ.items() if k != 'TANKWRIGHT_DATA'}
        env.update(XDG_DATA_HOME=os.path.join(folder, 'no-home'), LC_ALL='C.UTF-8')
        sample = os.path.join(root, 'samples', 'merlin-tail.twjob')
        tap.line(*check(run([os.path.join(build, 'src', 'tankwright-cli'), 'show', sample], env=env),
                        'the command works where it was built'))
        for which, path in (('built', os.path.join(build, 'src', 'tankwright-cli')), ('installed', cli)):
            good, said = run([path, 'show', sample], env=dict(env, LANGUAGE='de'))
            tap.line(good and 'Durchgang' in said, f'the {which} command speaks German', said)
        tap.line(*check(run([cli, '--version'], env=env), 'the command starts'))
        missing = unsaid(cli, os.path.join(root, 'data', 'tankwright-cli.1'), env)
        tap.line(not missing, 'the manual page names every verb and option', '\n'.join(missing))
        for sample in sorted(p for p in project.files if p.startswith('samples/') and p.endswith('.twjob')):
            tap.line(*check(run([cli, 'show', os.path.join(root, sample)], env=env),
                            f'the installed command shows {sample}'))
    print(f'1..{tap.number}')


def unsaid(cli, page, env):
    """Verbs and options that the command's help has and its manual page has not."""
    with open(page, encoding='utf-8') as stream:
        text = stream.read().replace('\\-', '-')
    verbs = re.findall(r'^  ([a-z]+)  ', run([cli, '--help'], env=env)[1], re.M)
    options = {option for verb in verbs for option in re.findall(r'--[a-z-]+', run([cli, verb, '--help'], env=env)[1])}
    return [f'{verb} is not in {page}' for verb in verbs if not re.search(rf'^\.B {verb}$', text, re.M)] + \
           [f'{option} is not in {page}' for option in sorted(options) if option not in text] + \
           ([] if verbs else ['the help names no verb'])


def check(result, what):
    return result[0], what, result[1]


if __name__ == '__main__':
    main(os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]))
