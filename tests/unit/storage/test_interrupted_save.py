"""A save that is killed leaves the old class or the new one, never half of either."""

import subprocess
import sys
import time

import pytest

from jarwright.model.document import document_from_json
from jarwright.storage.documents import read_document, save_document

KEEP_SAVING = """
import sys
from dataclasses import replace
from jarwright.storage.documents import read_document, save_document
document = read_document(sys.argv[1])
number = 0
while True:
    number += 1
    save_document(replace(document, title=(str(number) * 20_000)[:20_000]), sys.argv[1])
    if number == 1:
        print("saving", flush=True)
"""


@pytest.mark.parametrize("seconds", [0.011, 0.053, 0.102])
def test_power_cut_leaves_a_whole_class(tmp_path, small_class, seconds):
    """A laptop whose battery dies in mid-save still opens the class next morning."""
    path = tmp_path / "pears.json"
    save_document(document_from_json(small_class), path)
    with subprocess.Popen([sys.executable, "-c", KEEP_SAVING, str(path)], stdout=subprocess.PIPE) as saving:
        assert saving.stdout.readline() == b"saving\n"
        time.sleep(seconds)
        saving.kill()

    assert len(read_document(path).title) == 20_000
