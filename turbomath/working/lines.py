"""The lines of a worked solution: given, put into units that go together, step by step, answer, sense check."""

from dataclasses import dataclass, replace

from turbomath import units
from turbomath.table.errors import unwarned
from turbomath.table.quantities import QUANTITIES
from turbomath.units.spellings import FAMILIES
from turbomath.working import coherent
from turbomath.working.chain import Chain, own_letters
from turbomath.working.equations import letters_of, look_ups, read, worked_out
from turbomath.working.writing import Latex, Terminal, figures, letter, plain_number, with_unit, written

SENSE_FIGURES = 3


@dataclass(frozen=True)
class Line:
    """One line: its sort ("given", "units", "step", "answer", "sense"), words, equations as text and as LaTeX."""

    sort: str
    words: str
    text: tuple[str, ...] = ()
    latex: tuple[str, ...] = ()

    @property
    def says_no_more(self) -> bool:
        """Whether the one equation only repeats the number in the words."""
        after = self.text[0].partition(" = ")[2] if self.text else ""
        return self.sort in ("given", "answer") and after == self.words.partition(": ")[2]


def lines(chain: Chain, system: str) -> tuple[Line, ...]:
    """Return the lines of the worked solution of a chain in the system "us" or "si".

    Every result is worked out from the numbers as they are printed before it, so that a reader with a pocket
    calculator comes to the same figures.
    """
    sheet, found = _Sheet(chain, system), []
    used = {name for step in chain.steps for name in step.arguments.values() if isinstance(name, str)}
    straight = {asked.name for asked in chain.asked if asked.name in chain.given}
    for name, amount in sheet.amounts.items():
        if name in used | straight:
            found.append(sheet.given(name, amount, converted=name in used))
    found += [line for step in chain.steps for line in sheet.step(step)]
    found += [sheet.answer(asked) for asked in chain.asked]
    words = chain.sense or sheet.sense(chain.asked[-1])
    return tuple(found + ([Line("sense", f"Sense check: {words}")] if words else []))


class _Sheet:
    """The numbers that stand on the sheet so far, as text, by name in the chain."""

    def __init__(self, chain, system):
        self.chain, self.system = chain, system
        self.amounts = {name: _shown(amount, system) for name, amount in chain.given.items()}
        self.texts, self.units, self.shown, self.symbols, self.quantities = {}, {}, {}, {}, {}
        self.told = set()  # the constants whose value has been given
        self.pressure_unit = _one_pressure_unit(chain, self.amounts, system)

    def given(self, name, amount, converted):
        self._note(name, amount.quantity, amount.symbol)
        users = [step for step in self.chain.steps if name in step.arguments.values()]
        by_the_hour = users and all(map(_by_the_hour, users))
        unit = self._unit(amount.quantity, users[0] if by_the_hour else None)
        texts = []
        for style in (Terminal, Latex):
            shown = style.number(amount.text, amount.unit)
            expression, number = coherent.conversion(amount.text, amount.unit, unit, amount.quantity, style=style)
            self.texts[name], self.units[name] = number, unit
            end = f" = {style.number(number, unit)}" if converted and expression != shown else ""
            texts.append((f"{style.letter(self.symbols[name])} = {expression if end else shown}{end}",))
        return Line("given", f"{_plain(name)}: {with_unit(amount.text, amount.unit)}", *texts)

    def step(self, step):
        quantity = step.quantity_of()
        self._note(step.result, quantity, step.symbol or self._own_symbol(step))
        equation = read(step.formula.formula.equation, tuple(one[0] for one in own_letters(step.formula).values()))
        if equation is None:
            return [self._long_step(step)]
        return [self._open_step(step, *equation)]

    def _open_step(self, step, left, right):
        names = {step.letter_of(parameter): name for parameter, name in step.all_arguments().items()}
        numbers = {step.letter_of(parameter): self._number(step, parameter) for parameter in step.all_arguments()}
        symbols = {mark: self.symbols.get(name, mark) for mark, name in names.items() if isinstance(name, str)}
        opened = _Opened(right, symbols | {left: self.symbols[step.result]}, numbers, self.system)
        unit = self._unit(step.quantity_of(), step)
        self.texts[step.result], self.units[step.result] = figures(opened.result), unit
        beside = {mark: one for mark, one in opened.constants.items() if mark not in {*coherent.GROUPS, *self.told}}
        self.told |= set(beside)
        result = (self.texts[step.result], unit)
        texts = (opened.written(style, left, result, beside) for style in (Terminal, Latex))
        return Line("step", _plain(step.result), *texts)

    def _long_step(self, step):
        """A step whose equation is too long to put numbers into: the formula's own result for the printed numbers."""
        numbers, words = {}, []
        for parameter, name in step.arguments.items():
            if isinstance(name, str) and name in self.texts:
                text, unit = self._number(step, parameter)
                quantity = step.quantity_of(parameter)
                numbers[parameter] = coherent.to_si(plain_number(text), unit, quantity)
                words.append(f"{_plain(name)} {with_unit(text, unit)}")
            else:
                numbers[parameter] = name
        quantity = step.quantity_of()
        unit = self._unit(quantity, step)
        with unwarned():
            value = step.formula(**numbers)
        self.texts[step.result] = figures(coherent.from_si(value, unit, quantity))
        self.units[step.result] = unit
        symbol, text = self.symbols[step.result], self.texts[step.result]
        rule = f" ({step.formula.formula.conditions})"
        return Line(
            "step",
            f"{_plain(step.result)}, at {' and '.join(words)}{rule}",
            (f"{letter(symbol)} = {with_unit(text, unit)}",),
            (step.formula.formula.equation, f"{symbol} = {Latex.number(text, unit)}"),
        )

    def answer(self, asked):
        name = asked.name
        quantity = self.quantities[name]
        unit, places = asked.units.get(self.system) or (result_unit(quantity, self.system), None)
        if name in self.chain.given:
            text, own = self.amounts[name].text, self.amounts[name].unit
        else:
            text, own = self.texts[name], self.units[name]
        if places is None:
            places = _places(plain_number(coherent.conversion(text, own, unit, quantity)[1]))
        texts = []
        for style in (Terminal, Latex):
            expression, result = coherent.conversion(text, own, unit, quantity, places, style)
            shown = style.number(result, unit)
            start = f"{expression} = " if expression not in (shown, style.number(text, own)) else ""
            texts.append((f"{style.letter(self.symbols[name])} = {start}{shown}",))
        self.shown[name] = result
        return Line("answer", f"{_plain(name)}: {with_unit(result, unit)}", *texts)

    def sense(self, asked):
        """Say whether the answer lies in the range that the table of quantities calls sensible."""
        name, quantity = asked.name, self.quantities[asked.name]
        row = QUANTITIES[quantity]
        unit, _ = asked.units.get(self.system) or (result_unit(quantity, self.system), None)
        low, high = (coherent.from_si(end, unit, quantity) for end in row.sensible)
        value = plain_number(self.shown[name])
        ends = f"{figures(low, SENSE_FIGURES)} to {with_unit(figures(high, SENSE_FIGURES), unit)}"
        end = "this one is." if low <= value <= high else "this one is not, so look at the readings again."
        return f"{row.plain_name} in a shop is usually {ends}; {end}"

    def _unit(self, quantity, step=None):
        """Return the unit in which the equations of this sheet, or of one step, take a quantity."""
        if step and _by_the_hour(step):
            return coherent.hourly_unit(quantity, self.system)
        if self.pressure_unit and FAMILIES.get(QUANTITIES[quantity].kind, QUANTITIES[quantity].kind) == "pressure":
            return f"{self.pressure_unit} abs" if QUANTITIES[quantity].kind == "pressure" else self.pressure_unit
        return coherent.unit(quantity, self.system)

    def _number(self, step, parameter):
        """Return (text, unit) of what is put in for a parameter."""
        name = step.all_arguments()[parameter]
        quantity = step.quantity_of(parameter)
        unit = self._unit(quantity, step)
        if isinstance(name, str):
            return self._in_unit(name, unit, quantity), unit
        return figures(coherent.from_si(name, unit, quantity)), unit

    def _in_unit(self, name, unit, quantity):
        """Return the text of a number that stands on the sheet, in the unit that a step takes it in."""
        if self.units[name].removesuffix(" abs") == unit.removesuffix(" abs"):
            return self.texts[name]
        given = self.amounts.get(name)
        text, own = (given.text, given.unit) if given else (self.texts[name], self.units[name])
        return coherent.conversion(text, own, unit, quantity)[1]

    def _note(self, name, quantity, symbol):
        self.quantities[name] = quantity
        self.symbols[name] = symbol or (QUANTITIES[name].symbol if name in QUANTITIES else QUANTITIES[quantity].symbol)

    @staticmethod
    def _own_symbol(step):
        return "" if step.result in QUANTITIES else step.letter_of()


class _Opened:
    """The right side of an equation: its letters, and the numbers that stand for them."""

    def __init__(self, right, symbols, numbers, system):
        self.right, self.symbols, self.system = right, symbols, system
        self.constants = {mark: coherent.constant(mark, system) for mark in letters_of(right) if mark not in numbers}
        self.numbers = numbers | self.constants
        self.looked_up = {node: coherent.looked_up(node, self.value, system) for node in look_ups(right)}

    @property
    def result(self):
        """What the printed numbers come to."""
        return worked_out(self.right, self.value)

    def value(self, node):
        """Return the printed number of a letter or a looked-up value."""
        if node.sort == "look up":
            return plain_number(coherent.looked_up(node, self.value, self.system)[0])
        return plain_number(self.numbers[node.text][0])

    def written(self, style, left, result, beside):
        """Return the equation in letters, the values to know (the constants *beside* it), and it in numbers."""
        head = style.letter(self.symbols[left])
        in_letters = written(self.right, style, lambda node: self.symbol(node, style), style.spaced_times)
        in_numbers = written(self.right, style, lambda node: self.number(node, style))
        values = [f"{self.symbol(node, style)} = {style.number(*one)}" for node, one in self.looked_up.items()]
        values += [f"{style.letter(mark)} = {style.number(*one)}" for mark, one in beside.items()]
        shown = style.number(*result)
        end = "" if in_numbers == shown else f" = {shown}"
        return (f"{head} = {in_letters}", *values, f"{head} = {in_numbers}{end}")

    def symbol(self, node, style):
        """Return a letter, constants that go together, or a looked-up value, in letters."""
        name = style.letter(self.symbols.get(node.text, node.text))
        if node.text in coherent.GROUPS:
            return style.exponent(name)
        if node.sort == "letter":
            return name
        inner = (written(part, style, lambda one: self.symbol(one, style)) for part in node.parts)
        return name + style.group(", ".join(inner))

    def number(self, node, style):
        """Return the number of a letter or a looked-up value with its unit; a constant has it beside the equation."""
        text, unit = self.looked_up[node] if node in self.looked_up else self.numbers[node.text]
        return style.number(text, "-" if node.text in self.constants else unit)


def _by_the_hour(step):
    return coherent.by_the_hour(step.quantity_of(name) for name in (None, *step.all_arguments()))


def _plain(name):
    return QUANTITIES[name].plain_name if name in QUANTITIES else name.replace("_", " ")


def result_unit(quantity: str, system: str) -> str:
    """Return the unit in which a result of a chain is shown; a pressure worked out is never one of the gauge."""
    unit = units.display(quantity, system)
    return f"{unit.removesuffix(' gauge')} abs" if unit.endswith(" gauge") else unit


def _one_pressure_unit(chain, amounts, system):
    """Return the unit of pressure that runs through the whole chain, or "" if there is none or more than one.

    Where nothing but pressures and pure numbers come in, there is no need to leave the unit of the gauge.
    """
    used = {name for step in chain.steps for name in step.arguments.values() if isinstance(name, str)}
    pairs = [(amounts[name].quantity, amounts[name].unit) for name in amounts if name in used]
    for asked in chain.asked:
        quantity = next((step.quantity_of() for step in chain.steps if step.result == asked.name), "")
        if quantity and system in asked.units:
            pairs.append((quantity, asked.units[system][0]))
    kinds = {QUANTITIES[step.quantity_of(name)].kind for step in chain.steps for name in (None, *step.all_arguments())}
    families = {FAMILIES.get(kind, kind) for kind in kinds}
    if not families <= {"pressure", "fraction"}:
        return ""
    found = {unit.removesuffix(" abs") for quantity, unit in pairs if unit not in ("-", "%")}
    return found.pop() if len(found) == 1 else ""


def _shown(amount, system):
    """Return an amount as it is shown; one that has no text of its own is shown in the unit of the table."""
    if amount.text:
        return amount
    unit = result_unit(amount.quantity, system)
    return replace(amount, text=figures(coherent.from_si(amount.value, unit, amount.quantity)), unit=unit)


def _places(value, count=4):
    text = figures(value, count)
    return len(text.partition(".")[2])
