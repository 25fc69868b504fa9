# SPDX-License-Identifier: GPL-3.0-or-later
"""test_recovery.py PROGRAM SAMPLE: the program is killed in the middle of the work and started again, and two of
it work on one file. With real pointer and keys, on the display of tests/with-display.sh."""
import glob
import json
import os
import shutil
import signal
import subprocess
import sys
import time

PROGRAM, SAMPLE = sys.argv[1:3]
HOME = os.environ['HOME']
JOB = os.path.join(HOME, 'merlin.twjob')
PATIENCE_S = 40
alive = []
buses = []


def until(what, condition):
    end = time.time() + PATIENCE_S
    while time.time() < end:
        found = condition()
        if found:
            return found
        time.sleep(0.1)
    raise AssertionError(f'never came true: {what}')


def xdotool(*words):
    return subprocess.run(['xdotool', *map(str, words)], capture_output=True, text=True, timeout=PATIENCE_S)


def windows(title):
    return xdotool('search', '--onlyvisible', '--name', title).stdout.split()


def start(*arguments, alone=False):
    environment = dict(os.environ, GSETTINGS_BACKEND='memory')
    if alone:  # on a bus of its own: it does not find the other
        bus = subprocess.Popen(['dbus-daemon', '--session', '--nofork', '--nopidfile', '--print-address=1'],
                               stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        buses.append(bus)
        environment['DBUS_SESSION_BUS_ADDRESS'] = bus.stdout.readline().strip()
    program = subprocess.Popen([PROGRAM, *arguments], env=environment, stderr=subprocess.DEVNULL)
    alive.append(program)
    return program


def kill(program):
    program.send_signal(signal.SIGKILL)
    program.wait()
    alive.remove(program)


def journals():
    return glob.glob(os.path.join(HOME, '.local/state/tankwright/journal/*.journal'))


def steps():
    """The whole steps that stand in the one journal there is."""
    if len(journals()) != 1:
        return []
    with open(journals()[0], 'rb') as file:
        lines = file.read().split(b'\n')[2:-1]
    return [json.loads(line[17:])['change'] for line in lines]


def drag(by):
    """Takes what lies in the middle of the drawing and moves it down."""
    xdotool('mousemove', 640, 420)
    time.sleep(0.2)
    xdotool('mousedown', 1, 'sleep', '0.1', 'mousemove_relative', 0, by // 2, 'sleep', '0.1', 'mousemove_relative',
            0, by - by // 2, 'sleep', '0.2', 'mouseup', 1)


def drag_until_entered(n):
    """A click can come before the window is ready for it."""
    end = time.time() + PATIENCE_S
    while len(steps()) < n and time.time() < end:
        drag(12)
        for _ in range(20):
            if len(steps()) >= n:
                break
            time.sleep(0.1)
    assert len(steps()) >= n, f'{n} steps were never entered'


def text():
    with open(JOB, encoding='utf-8') as file:
        return file.read()


def figures_in(words, last):
    """The figure that the set @last gives, as it stands in @words, a job file."""
    job = json.loads(words)
    part = next(part for parts in job.values() if isinstance(parts, list) for part in parts
                if isinstance(part, dict) and part.get('id') == last['set'])
    if 'element' in last:
        part = next(element for elements in part.values() if isinstance(elements, list) for element in elements
                    if element.get('id') == last['element'])
    return part.get(last['field'])


def test_killed():
    """After a kill and a torn last line the offer comes, recovers what is whole, and the file waits for a save."""
    shutil.copyfile(SAMPLE, JOB)
    before = text()
    program = start(JOB)
    until('the window', lambda: windows('Merlin, tail'))
    drag_until_entered(1)
    xdotool('key', 'Up')
    until('a second step', lambda: len(steps()) >= 2)
    kept = steps()[-2]
    kill(program)
    assert text() == before, 'the file was written without being saved'
    with open(journals()[0], 'rb+') as file:
        file.truncate(os.path.getsize(journals()[0]) - 7)

    program = start()
    until('the offer', lambda: windows('Unsaved Work'))
    time.sleep(1)
    xdotool('key', 'Return')
    until('the recovered job', lambda: windows('• Merlin, tail'))
    assert text() == before, 'recovering wrote the file'
    until('the end of the offer', lambda: not windows('Unsaved Work'))
    xdotool('key', 'ctrl+s')
    until('the save', lambda: text() != before)
    for member in kept['group']:
        found = figures_in(text(), member)
        assert member['value'] == found, f'{member} was done, {found} came back'
    until('the end of the journal', lambda: not journals())
    kill(program)

    program = start()
    until('the start page', lambda: windows('Tankwright'))
    time.sleep(2)
    assert not windows('Unsaved Work'), 'there is nothing left to recover'
    kill(program)


def test_killed_never_saved():
    """A job that was never in a file comes back too."""
    program = start()
    until('the start page', lambda: windows('Tankwright'))
    time.sleep(1)
    xdotool('key', 'ctrl+shift+n')
    until('the questions', lambda: windows('New Layout'))
    time.sleep(1.5)
    xdotool('type', '900')
    xdotool('key', 'Tab')
    xdotool('type', '600')
    xdotool('key', 'Tab')
    xdotool('type', '300')
    time.sleep(0.5)
    xdotool('key', 'Return')
    until('the layout', lambda: len(steps()) >= 1)
    kill(program)
    program = start()
    until('the offer', lambda: windows('Unsaved Work'))
    time.sleep(1)
    xdotool('key', 'Return')
    until('the recovered job', lambda: windows('•'))
    kill(program)
    for journal in journals():
        os.unlink(journal)


def test_two_programs():
    """Each has the file open; who saves second is asked, and what the first wrote stands until it answers."""
    shutil.copyfile(SAMPLE, JOB)
    before = text()
    first = start(JOB, alone=True)
    until('the first window', lambda: windows('Merlin, tail'))
    second = start(JOB, alone=True)
    until('the second window', lambda: len(windows('Merlin, tail')) == 2)
    time.sleep(1)
    drag_until_entered(1)
    xdotool('key', 'ctrl+s')
    until('the save of the second', lambda: text() != before)
    saved = text()
    until('the end of its journal', lambda: not journals())
    kill(second)
    until('one window', lambda: len(windows('Merlin, tail')) == 1)
    drag_until_entered(1)
    xdotool('key', 'ctrl+s')
    until('the question', lambda: windows('Changed on Disk'))
    assert text() == saved, 'it was written over'
    xdotool('key', 'Escape')
    until('the end of the question', lambda: not windows('Changed on Disk'))
    assert text() == saved, 'it was written over'
    kill(first)


def main():
    tests = [test_killed, test_killed_never_saved, test_two_programs]
    print(f'1..{len(tests)}')
    if shutil.which('xdotool') is None:
        if os.environ.get('CI') == 'true':
            sys.exit('xdotool is not installed')
        print('1..0 # SKIP xdotool is not installed')
        return
    failed = False
    for nth, test in enumerate(tests, 1):
        try:
            test()
            print(f'ok {nth} - {test.__doc__}')
        except AssertionError as error:
            failed = True
            print(f'not ok {nth} - {test.__doc__}')
            print(f'# {error}')
        for program in list(alive):
            kill(program)
        for bus in buses:
            bus.kill()
            bus.wait()
        buses.clear()
        for journal in journals():
            os.unlink(journal)
    sys.exit(failed)


main()
