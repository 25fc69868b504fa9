#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_command.py COMMAND SAMPLES: calls the command as a script would, without display or bus; TAP."""
import glob
import json
import os
import subprocess
import sys
import tempfile
import xml.etree.ElementTree

COMMAND, SAMPLES = sys.argv[1], sys.argv[2]
TAIL = os.path.join(SAMPLES, 'merlin-tail.twjob')
BARE = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'WAYLAND_DISPLAY', 'DBUS_SESSION_BUS_ADDRESS')}
BARE['LC_ALL'] = 'C.UTF-8'
CASES = []


def case(function):
    CASES.append(function)
    return function


def call(*words, text=None, locale=None):
    env = dict(BARE, **({'LC_ALL': locale} if locale else {}))
    done = subprocess.run([COMMAND, *words], input=text, capture_output=True, text=True, env=env, timeout=60)
    return done.returncode, done.stdout, done.stderr


def expect(condition, what):
    if not condition:
        raise AssertionError(what)


BAY = ['--width', '920', '--height', '430', '--depth', '700']


@case
def help_everywhere():
    for words in (['--help'], ['-h'], *([verb, '--help'] for verb in
                  ('show', 'findings', 'sheets', 'picture', 'check', 'set', 'new'))):
        status, out, err = call(*words)
        expect(status == 0 and 'tankwright-cli' in out and err == '', f'{words}: {status} {out} {err}')


@case
def wrong_calls_end_with_2_and_say_where_help_is():
    for words in ([], ['dance'], ['show'], ['show', TAIL, TAIL], ['show', '--no-such-option', TAIL], ['set', TAIL],
                  ['check'], ['findings'], ['new', 'more'], ['new', '--width', '900'], ['show', '-p', 'nothing', TAIL],
                  ['new', '--tubes', 'slanted', *BAY], ['new', '--air-from', 'below', *BAY],
                  ['new', '--of', 'cake', '--brake', '60', *BAY], ['new', '--share', '60 %', *BAY],
                  ['new', '--heat', '42', '--brake', '70', *BAY]):
        status, out, err = call(*words)
        expect(status == 2 and out == '' and '--help' in err, f'{words}: {status} {out!r} {err!r}')


@case
def missing_and_broken_files_end_with_1():
    with tempfile.TemporaryDirectory() as folder:
        broken = os.path.join(folder, 'broken.twjob')
        with open(broken, 'w', encoding='utf-8') as stream:
            stream.write('{"tankwright-job": 1, "tanks": [{"id": "a", "core": "b", "wall_mm": -2}]}')
        for verb in ('show', 'findings', 'check'):
            for path in (broken, os.path.join(folder, 'absent.twjob'), folder):
                status, out, err = call(verb, path)
                expect(status == 1 and out == '' and path in err, f'{verb} {path}: {status} {out!r} {err!r}')
        _, _, err = call('check', broken)
        expect('tanks[0].wall_mm: found -2, expected a length of 0.3 to 20 mm' in err, err)
        expect('tanks[0].core: found "b"' in err, err)


@case
def standard_input_is_a_file():
    with open(TAIL, encoding='utf-8') as stream:
        text = stream.read()
    for verb in ('show', 'check', 'findings'):
        _, from_file, _ = call(verb, TAIL)
        _, from_input, _ = call(verb, '-', text=text)
        expect(from_file.replace(TAIL, '-') == from_input, f'{verb} differs')


@case
def set_writes_what_was_said_and_nothing_else():
    with open(TAIL, encoding='utf-8') as stream:
        before = json.load(stream)
    status, out, err = call('set', TAIL, '-o', '-', 'baffle.place_mm=-15', 'left-tank.wall_mm=0.080 in',
                            'job.name=Another name')
    expect(status == 0, err)
    after = json.loads(out)
    expect(after.pop('name') == 'Another name', 'name')
    before.pop('name')
    tank = next(t for t in after['tanks'] if t['id'] == 'left-tank')
    expect(tank['wall_mm'] == 2.032 and tank['wall_typed'] == '0.080 in', str(tank))
    old = next(t for t in before['tanks'] if t['id'] == 'left-tank')
    del tank['wall_mm'], tank['wall_typed'], old['wall_mm']
    baffle = next(b for b in after['baffles'] if b['id'] == 'baffle')
    expect(baffle['place_mm'] == -15, str(baffle))
    for b in (baffle, next(b for b in before['baffles'] if b['id'] == 'baffle')):
        b.pop('place_mm')
        b.pop('place_typed', None)
    expect(after == before, 'something else changed')


@case
def set_refuses_and_leaves_the_file_alone():
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, 'job.twjob')
        with open(TAIL, 'rb') as stream:
            text = stream.read()
        with open(path, 'wb') as stream:
            stream.write(text)
        for words, said in ((['left-tank.wall_mm=900'], 'wall_mm'), (['left-tank.colour=red'], 'it has name'),
                            (['nobody.wall_mm=2'], 'nobody'), (['left-tank.wall_mm=thick'], 'thick'),
                            (['baffle.place_mm=0', 'baffle.tank=nobody'], 'nobody'), (['wall_mm'], 'PART.FIELD=VALUE')):
            status, out, err = call('set', path, *words)
            expect(status == 1 and said in err and out == '', f'{words}: {status} {err!r}')
            with open(path, 'rb') as stream:
                expect(stream.read() == text, f'{words} changed the file')
        status, _, err = call('set', path, 'baffle.place_mm=-15')
        expect(status == 0, err)
        status, out, _ = call('show', '-p', 'passes', path)
        expect('17' in out and '14' in out, out)


@case
def new_makes_a_job_that_shows_no_stop():
    for words in (['--width', '920', '--height', '430', '--depth', '700', '--heat', '42 kW'],
                  ['--inches', '--width', '36', '--height', '20 1/2', '--depth', '2 ft', '--kind', 'two-row-fine'],
                  ['--width', '300', '--height', '600', '--depth', '400', '--no-fans']):
        status, out, err = call('new', *words)
        expect(status == 0, err)
        status, found, err = call('findings', '-', text=out)
        expect(status in (0, 10) and err == '', f'{words}: {status} {found} {err}')


@case
def new_keeps_the_five_answers():
    status, out, err = call('new', *BAY, '--brake', '70', '--share', '60 %', '--ambient', '90 F', '--coolant', 'eg-50',
                            '--air-from', 'rear', '--name', 'Tail', '--explain')
    job = json.loads(out)
    expect(status == 0 and 'Two passes' not in err and 'One pass' in err, err)
    expect(job['name'] == 'Tail' and job['heat_kw'] == 42 and job['nose_heading_deg'] == 180, out)
    duty = job['duty_cases'][0]
    expect(abs(duty['ambient_c'] - (90 - 32) / 1.8) < 1e-9 and duty['brake_kw'] == 70 and duty['water_share'] == 0.6, out)
    expect(duty['water_share_of'] == 'brake' and job['loop']['coolant'] == 'eg-50', out)


@case
def new_says_which_answer_cannot_be_taken():
    for words, said in ((['--width', '920', '--height', '430', '--depth', '100'], 'bay depth: found 100.0'),
                        ([*BAY, '--coolant', 'beer'], 'coolant: found'), ([*BAY, '--ambient', '99'], 'ambient: expected'),
                        ([*BAY, '--kind', 'huge'], 'kind of core: found'), ([*BAY, '--heat', 'much'], '--heat:'),
                        (['--width', '20 3/0', '--height', '1', '--depth', '1'], '--width:')):
        status, out, err = call('new', *words)
        plain = err.replace('\u2009', ' ')
        expect(status == 1 and out == '' and said in plain, f'{words}: {status} {err}')


@case
def new_lists_what_there_is():
    for option, word in (('--kinds', 'single-row-fine'), ('--coolants', 'eg-50')):
        status, out, err = call('new', option)
        expect(status == 0 and word in out and err == '', f'{option}: {out} {err}')


@case
def sheets_are_written_and_named():
    with tempfile.TemporaryDirectory() as folder:
        out_folder = os.path.join(folder, 'new', 'sheets')
        status, out, err = call('sheets', TAIL, '-o', out_folder)
        names = ['merlin-tail-arrangement-1.svg', 'merlin-tail-core-and-tanks-2.svg', 'merlin-tail.pdf']
        expect(status == 0 and err == '' and sorted(os.listdir(out_folder)) == names, f'{status} {out} {err}')
        expect(sorted(out.split()) == [os.path.join(out_folder, name) for name in names], out)
        with open(os.path.join(out_folder, 'merlin-tail.pdf'), 'rb') as stream:
            first = stream.read()
        expect(first.startswith(b'%PDF-'), str(first[:8]))
        for name in names[:2]:
            xml.etree.ElementTree.parse(os.path.join(out_folder, name))
        with open(TAIL, encoding='utf-8') as stream:
            text = stream.read()
        status, out, err = call('sheets', '-', '-o', folder, '--format', 'svg', '--sheet', 'core-and-tanks', text=text)
        expect(status == 0 and out.split() == [os.path.join(folder, 'job-core-and-tanks-1.svg')], f'{out} {err}')
        for words in (['--paper', 'A9'], ['--paper', 'A3', '--sheet', 'all'], ['--format', 'png']):
            before = sorted(os.listdir(folder))
            status, out, err = call('sheets', TAIL, '-o', folder, *words)
            expect(status != 0 and out == '' and err != '' and sorted(os.listdir(folder)) == before, f'{words}: {err}')
        status, out, err = call('sheets', TAIL, '-o', TAIL)
        expect(status == 1 and out == '' and TAIL in err, f'{status} {out} {err}')


@case
def picture_of_each_card_is_png_and_svg():
    for card in ('frontal', 'coverage', 'passes', 'hoses', 'fit'):
        for kind, head in (('png', b'\x89PNG'), ('svg', b'<?xml')):
            with tempfile.TemporaryDirectory() as folder:
                path = os.path.join(folder, 'card.' + kind)
                code, out, err = call('picture', '--card', card, '-o', path, TAIL)
                expect(code == 0 and not err, f'{card} {kind}: {code} {err}')
                with open(path, 'rb') as stream:
                    expect(stream.read(5).startswith(head), f'{card} is no {kind}')


@case
def picture_is_png_or_svg():
    with tempfile.TemporaryDirectory() as folder:
        for name in ('face.png', 'face.svg'):
            path = os.path.join(folder, name)
            status, out, err = call('picture', TAIL, '-o', path, '--width', '300', '--dark')
            with open(path, 'rb') as stream:
                start = stream.read(200)
            expect(status == 0 and out == err == '', f'{status} {out} {err}')
            expect(start.startswith(b'\x89PNG\r\n') if name.endswith('.png') else b'<svg' in start, str(start))
        env = dict(BARE)
        for view in ('face', 'front', 'side', 'plan'):
            done = subprocess.run([COMMAND, 'picture', TAIL, '-v', view, '-o', '-', '-w', '200'], capture_output=True,
                                  env=env, timeout=60, check=False)
            expect(done.returncode == 0 and done.stdout.startswith(b'\x89PNG'), f'{view}: {done.stderr!r}')
            expect(int.from_bytes(done.stdout[16:20], 'big') == 200, f'{view}: width')
        for words, end in ((['--view', 'below'], 2), (['--core', 'nobody'], 1), (['--width', '5'], 2)):
            status, out, err = call('picture', TAIL, '-o', os.path.join(folder, 'none.png'), *words)
            expect(status == end and out == '' and err != '' and not os.path.exists(os.path.join(folder, 'none.png')),
                   f'{words}: {status} {err}')


@case
def picture_for_a_list_of_files():
    """As the desktop calls it: a PNG whose longer side is what was asked for, of every sample, also of an odd job."""
    with tempfile.TemporaryDirectory() as folder:
        out_path = os.path.join(folder, 'small')
        odd = os.path.join(folder, 'bay.twjob')
        with open(odd, 'w', encoding='utf-8') as stream:
            stream.write('{ "tankwright-job": 1, "volumes": [{ "id": "v", "use": "free", "plane": "front", "from_mm": 0, '
                         '"to_mm": 9, "outline": [{ "id": "a", "across_mm": 0, "up_mm": 0 }, { "id": "b", "across_mm": '
                         '99, "up_mm": 0 }, { "id": "c", "across_mm": 99, "up_mm": 50 }] }] }')
        jobs = sorted(glob.glob(os.path.join(SAMPLES, '*.twjob'))) + [odd]
        for job in jobs:
            for size in (16, 128, 256, 512):
                status, out, err = call('picture', job, out_path, '--size', str(size))
                expect(status == 0 and out == err == '', f'{job}: {status} {out} {err}')
                with open(out_path, 'rb') as stream:
                    start = stream.read(24)
                sides = [int.from_bytes(start[16:20], 'big'), int.from_bytes(start[20:24], 'big')]
                expect(start.startswith(b'\x89PNG') and max(sides) == size and min(sides) > 0, f'{job}: {sides}')
        os.unlink(out_path)
        for words, end in ((['--size', '5'], 2), (['--size', '9999'], 2), (['--size', '64', '--card', 'passes'], 2)):
            status, out, err = call('picture', TAIL, out_path, *words)
            expect(status == end and err != '' and not os.path.exists(out_path), f'{words}: {status} {err}')
        with open(odd, 'w', encoding='utf-8') as stream:
            stream.write('{ "tankwright-job": 1 }')
        status, out, err = call('picture', odd, out_path, '--size', '64')
        expect(status == 1 and err != '' and not os.path.exists(out_path), f'{status} {err}')


@case
def json_is_json_in_any_locale():
    plain = call('show', '--json', TAIL)
    comma = call('show', '--json', TAIL, locale=os.environ.get('TW_COMMA_LOCALE', 'C.UTF-8'))
    expect(plain[0] == 0 and plain == comma, plain[2])
    cards = {card['id']: card for card in json.loads(plain[1])['cards']}
    expect({'frontal', 'coverage', 'passes', 'hoses', 'fit', 'findings'} <= set(cards), str(list(cards)))
    status, out, _ = call('findings', '--json', TAIL)
    expect(status in (0, 10, 20) and 'findings' in json.loads(out), out)


@case
def findings_status_tells_stop_warn_none():
    with open(TAIL, encoding='utf-8') as stream:
        text = stream.read()
    _, moved, _ = call('set', '-', '-o', '-', 'baffle.place_mm=0', text=text)  # onto the mouth of tube 16
    status, out, _ = call('findings', '-', text=moved)
    expect(status == 20, f'{status} {out}')


def main():
    failed = 0
    print(f'1..{len(CASES)}')
    for number, function in enumerate(CASES, 1):
        try:
            function()
            print(f'ok {number} - {function.__name__}')
        except Exception as error:  # a case that falls over is a case that failed
            failed += 1
            print(f'not ok {number} - {function.__name__}')
            for line in str(error).splitlines():
                print(f'# {line}')
    sys.exit(1 if failed else 0)


main()
