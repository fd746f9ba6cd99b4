"""The command that writes pocket lessons, how it refuses, and a page where nothing could be recorded."""

import re

from turbomath import cli
from turbomath.panels.registry import LESSONS
from turbomath.pocket import page

LIVE_LAB = next(one for one in LESSONS if one.name == "live_lab")


def test_it_asks_which_lesson_is_meant(tmp_path, capsys):
    assert cli.main(["lessons", "--pocket", str(tmp_path / "phones")]) == 1
    assert "--all" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_homework_is_sent_to_its_own_command(tmp_path, capsys):
    assert cli.main(["lessons", "homework", "--pocket", str(tmp_path)]) == 1
    assert "turbomath homework sheet" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_what_is_not_recorded_is_told_with_the_way_to_get_it():
    told = page.pocket_page(LIVE_LAB, dict.fromkeys(page.panel_names(LIVE_LAB)))
    assert told.count("turbomath lessons 08") == 2
    assert "How many times denser is the charge?" in told
    assert '<span class="letter">D</span> as the boost gauge over the barometer says' in told
    assert "Stop at once for:" in told


def test_a_page_asks_nobody_for_anything():
    told = page.pocket_page(LIVE_LAB, dict.fromkeys(page.panel_names(LIVE_LAB)))
    assert "default-src 'none'" in told
    assert not re.search(r"""(?:src|href)=["'](?!data:|#|index\.html|\d\d_)""", told)
    assert not re.search(r"https?://(?!www\.w3\.org/)", told)
    assert not re.search(r"fetch\(|XMLHttpRequest|localStorage", told)


def test_the_index_leads_to_every_lesson():
    lessons = [one for one in LESSONS if one.predictions]
    told = page.index_page(lessons)
    assert re.findall(r'href="([^"]+)"', told) == [f"{one.notebook}.html" for one in lessons]
