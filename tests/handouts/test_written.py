"""The command that writes a lesson's papers, and how it refuses."""

from turbomath import cli


def test_a_lesson_is_written_as_three_papers(tmp_path, capsys):
    assert cli.main(["lessons", "3", "--print", str(tmp_path / "week 3")]) == 0
    names = [f"03_hot_air_is_thin{ending}.html" for ending in ("", "-cards", "-substitute")]
    assert sorted(path.name for path in (tmp_path / "week 3").iterdir()) == sorted(names)
    told = capsys.readouterr().out
    assert all(name in told for name in names)


def test_homework_is_sent_to_its_own_command(tmp_path, capsys):
    assert cli.main(["lessons", "homework", "--print", str(tmp_path)]) == 1
    assert "turbomath homework sheet" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_a_lesson_that_is_not_there_is_named_with_those_that_are(tmp_path, capsys):
    assert cli.main(["lessons", "99", "--print", str(tmp_path)]) == 1
    assert "03_hot_air_is_thin" in capsys.readouterr().err
