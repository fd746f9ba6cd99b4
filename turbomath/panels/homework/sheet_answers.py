"""What stands in the boxes of a sheet: each entry on the disk before it is called saved, and all of it handed in."""

import json
from contextlib import suppress
from datetime import datetime
from typing import Any

from turbomath.disk import files, plain_files
from turbomath.disk.journal import Journal
from turbomath.homework.marking import answer_files, answers, tables
from turbomath.panels.homework.sheet_file import SheetFile
from turbomath.table.errors import RefusedFileError, TurbomathError, refused, short
from turbomath.table.formulas import choice
from turbomath.table.version import __version__

REMARK = "remark"
LONGEST_REMARK = 300


class SheetAnswers:
    """The answers to one sheet, begun with what its journal holds.

    `texts` and `unsaved` have a (question, part) for each box: what stands in it, and why that is not on the disk.

    Raises
    ------
    OSError, RefusedFileError
        If there is a journal beside the sheet that cannot be read.
    """

    def __init__(self, sheet: SheetFile) -> None:
        self.sheet, self.journal = sheet, Journal(sheet.path.parent / f"sheet-{sheet.code}.journal")
        self.texts: dict[tuple[str, str], str] = {}
        self.unsaved: dict[tuple[str, str], str] = {}
        self.handed, self.fault, self.changed = "", "", False
        self._parts = {one.name: tuple(name for name, _ in one.parts) or ("",) for one in sheet.questions}
        records, self.note = self.journal.read()
        self._restore([one for one in records if one.get("sheet") == sheet.code])
        self.restored = self._filled(self.texts)

    @property
    def filled(self) -> tuple[int, int]:
        """How many boxes for answers have something in them, and how many there are."""
        return self._filled({key: self.texts[key] for key in self.texts if key[1] != REMARK}), sum(
            len(parts) for parts in self._parts.values()
        )

    def enter(self, question: str, part: str, text: str) -> None:
        """Put what stands in one box on the disk, or keep in mind why that failed."""
        box = self._box(question, part)
        self.texts[box] = text = str(text)
        try:
            self._keep(question=question, part=part, answer=text)
        except (OSError, TurbomathError) as trouble:
            self.unsaved[box] = refused(trouble)
        else:
            self.unsaved.pop(box, None)
            self.changed = True

    def again(self) -> None:
        """Try once more to save what the disk refused."""
        for question, part in tuple(self.unsaved):
            self.enter(question, part, self.texts[question, part])

    def hand_in(self) -> None:
        """Write answers.json beside the sheet, whole."""
        path, self.handed, self.fault = self.sheet.path.parent / "answers.json", "", ""
        try:
            self._refuse_another(path)
            files.write_whole(path, json.dumps(self.content(), indent=1, ensure_ascii=False) + "\n")
        except (OSError, TurbomathError) as trouble:
            self.fault = f"Not handed in: {refused(trouble)}"
            return
        self.handed, self.changed = f"Handed in on {_now().replace('T', ' at ')}: {path}", False
        with suppress(OSError, TurbomathError):  # the answers are handed in, whether this note of it is kept or not
            self._keep(handed=self.handed)

    def content(self) -> dict[str, Any]:
        """Return what is handed in: text only, each on one line, and no empty box."""
        entries = []
        for question, parts in self._parts.items():
            remark = self._line(question, REMARK, LONGEST_REMARK)
            for part in parts:
                answer, unit = _parted(self._line(question, part, tables.LONGEST))
                if answer or remark:
                    entries.append(dict(zip(answer_files.FIELDS, (question, part, answer, unit, remark), strict=True)))
                    remark = ""
        return {
            "schema": answer_files.SCHEMA,
            "seat": self.sheet.seat,
            "sheet": self.sheet.code,
            "kit": __version__,
            "answers": entries,
        }

    def _keep(self, **said):
        self.journal.append({"sheet": self.sheet.code, "seat": self.sheet.seat, "when": _now(), **said})

    def _restore(self, records):
        """Take up what was kept; the last word on each box counts."""
        for one in records:
            if "handed" in one:
                self.handed, self.changed = str(one["handed"]), False
                continue
            with suppress(TurbomathError):  # a box that this sheet has not
                self.texts[self._box(one.get("question"), one.get("part"))] = str(one.get("answer", ""))
                self.changed = True

    def _box(self, question, part):
        parts = (*choice("question", question, self._parts), REMARK)
        return question, choice("part", part, dict(zip(parts, parts, strict=True)))

    def _line(self, question, part, longest):
        return short(self.texts.get((question, part), ""), longest).strip()

    def _refuse_another(self, path):
        """Refuse to write over the answers to another sheet."""
        if not tables.exists(path):
            return
        try:
            before = json.loads(plain_files.text(path)).get("sheet")
        except (TurbomathError, ValueError, RecursionError, AttributeError):
            before = None
        if before != self.sheet.code:
            raise RefusedFileError(
                path,
                before or "another file",
                f"the answers to sheet {self.sheet.code}",
                "Move that file elsewhere first; it was left as it is.",
            )

    @staticmethod
    def _filled(texts):
        return sum(bool(text.strip()) for text in texts.values())


def _parted(text):
    """Return (answer, unit): a number apart from its unit, or the text as it is."""
    try:
        return answers.parted(text)
    except TurbomathError:
        return text, ""


def _now():
    return datetime.now().isoformat(timespec="seconds")
