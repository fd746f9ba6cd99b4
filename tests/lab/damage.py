"""What a bad disk, a torn copy or a stray key makes of a file."""


def damaged(raw, chance):
    """Return the bytes with one to four of their places changed, lost or doubled, or their end cut off."""
    raw = bytearray(raw)
    for _ in range(chance.randrange(1, 5)):
        at = chance.randrange(max(len(raw), 1))
        match chance.randrange(4):
            case 0:
                raw[at : at + 1] = bytes([chance.randrange(256)])
            case 1:
                del raw[at : at + chance.randrange(1, 5)]
            case 2:
                raw[at:at] = raw[at : at + chance.randrange(1, 40)]
            case _:
                del raw[max(at, 1) :]
    return bytes(raw)
