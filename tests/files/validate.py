#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""validate.py SCHEMA PRINT-RANDOM-JOBS SAMPLE...: samples and written random jobs against the schema; speaks TAP."""
import copy
import json
import os
import subprocess
import sys

N_JOBS = 300


def wrong_ones(sample):
    """(what is wrong, job) of jobs that the schema must refuse, each made from a good sample."""
    def spoilt(what, change):
        job = copy.deepcopy(sample)
        change(job)
        return what, job

    yield spoilt('another format', lambda j: j.update({'tankwright-job': 2}))
    yield spoilt('no format', lambda j: j.pop('tankwright-job'))
    yield spoilt('a text for a length', lambda j: j['tanks'][0].update(wall_mm='2'))
    yield spoilt('a wall too thick', lambda j: j['tanks'][0].update(wall_mm=21))
    yield spoilt('half a tube', lambda j: j['cores'][0].update(tube_count=30.5))
    yield spoilt('no such side', lambda j: j['tanks'][0].update(side='under'))
    yield spoilt('a part without id', lambda j: j['fans'][0].pop('id'))
    yield spoilt('an id with a space', lambda j: j['fans'][0].update(id='left fan'))
    yield spoilt('a tank of no core', lambda j: j['tanks'][0].pop('core'))
    yield spoilt('typed without figure', lambda j: j['cores'][0].update(louvre_typed='27'))
    yield spoilt('an outline of one corner', lambda j: j['volumes'][0].update(outline=[{'id': 'corner-1'}]))
    yield spoilt('parts that are no list', lambda j: j.update(fans={}))


def main(schema_path, print_jobs, samples):
    try:
        import jsonschema
    except ImportError:
        if os.environ.get('CI'):
            print('1..1\nnot ok 1 - python3-jsonschema is not installed')
        else:
            print('1..0 # SKIP python3-jsonschema is not installed')
        return
    with open(schema_path, encoding='utf-8') as stream:
        schema = json.load(stream)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    jobs = []
    for path in samples:
        with open(path, encoding='utf-8') as stream:
            jobs.append((os.path.basename(path), json.load(stream)))
    written = subprocess.run([print_jobs, str(N_JOBS)], check=True, capture_output=True).stdout
    for seed, text in enumerate(written.split(b'\0')[:-1]):
        jobs.append((f'random job {seed}', json.loads(text)))
    wrong = [f'{name}: {error.json_path}: {error.message[:200]}' for name, job in jobs for error in validator.iter_errors(job)]
    passed = [what for what, job in wrong_ones(jobs[0][1]) if validator.is_valid(job)]
    print('1..2')
    for line in wrong + passed:
        print(f'# {line}')
    print(f'{"not " if wrong or len(jobs) < N_JOBS else ""}ok 1 - {len(samples)} samples and {N_JOBS} random jobs are by the schema')
    print(f'{"not " if passed else ""}ok 2 - what is wrong is not by the schema')


if __name__ == '__main__':
    main(sys.argv[1], sys.argv[2], sys.argv[3:])
