"""The tables of the ledger."""

from __future__ import annotations

__all__ = ["APPLICATION", "COUNTED", "CREDITS", "FIGURES", "IN_STOCK", "LIKENESS", "TABLES", "VERSION"]

APPLICATION = 0x67726466
"""Stands in the head of the file, by the rules of SQLite, and says whose it is."""

VERSION = 4
"""Goes up with every change of the tables; `verifier.intake.ledger.migration` brings a ledger up to it."""

CREDITS = ("id", "title", "setter", "kind", "grid", "content")
"""The columns that say which puzzle it is."""

LIKENESS = ("turned", "structure", "filling", "likeness_by")
"""The columns by which duplicates are found."""

FIGURES = (
    "solutions",
    "complete",
    "tier",
    "tier_name",
    "hardest",
    "effort",
    "minutes",
    "rounds",
    "steps",
    "solved_by_logic",
)
"""The columns that hold the figures of a verdict."""

COUNTED = "standing < 4"
"""The condition for submissions that count: all but those that were replaced or are gone."""

IN_STOCK = "standing < 3"
"""The condition for submissions that stay when their file is gone: accepted ones, and those on a page."""

TABLES = """
CREATE TABLE runs (
    run INTEGER PRIMARY KEY,
    started TEXT NOT NULL,
    ended TEXT,                         -- NULL where it was cut short
    sources TEXT NOT NULL               -- what the command line named, as JSON
);
CREATE TABLE makers (
    maker TEXT PRIMARY KEY,
    record TEXT NOT NULL                -- versions, house style and limits, as JSON
) WITHOUT ROWID;
CREATE TABLE submissions (
    submission INTEGER PRIMARY KEY AUTOINCREMENT,
    digest TEXT NOT NULL,               -- of what was sent, wherever it lay; empty where that was not kept
    address TEXT NOT NULL,              -- where it lay last
    place BLOB NOT NULL,                -- sorts as the address does
    origin BLOB NOT NULL,               -- the file in which it lay, as seen from the folder of the ledger
    line INTEGER,
    arrived INTEGER NOT NULL,           -- how many runs had come to their end when it first came
    run INTEGER NOT NULL,               -- the last one in which it was there
    gone INTEGER,                       -- the run that no longer found it; what is in stock is never gone
    replaced_by INTEGER,                -- the submission with which its setter corrected it
    form TEXT, sent BLOB,               -- what was sent, packed with zlib; not kept where it cannot be read
    state TEXT NOT NULL,                -- accepted, rejected, undecided, unreadable, waiting, not judged
    refused INTEGER NOT NULL DEFAULT 0, -- accepted by its verdict; rejected since the house takes no repeats
    provisional INTEGER NOT NULL DEFAULT 0,
    maker TEXT,
    id TEXT, title TEXT, setter TEXT, kind TEXT, grid TEXT,
    id_written INTEGER NOT NULL DEFAULT 0,  -- whether the id stands in the file; else it is from the name
    content TEXT,                       -- of the puzzle itself
    sender TEXT,                        -- the setter's name, where it could be told of what cannot be read
    reasons TEXT NOT NULL DEFAULT '[]', -- [{"code": ..., "says": ...}]; of an unreadable one, its faults
    solutions INTEGER, complete INTEGER,
    tier INTEGER, tier_name TEXT, hardest TEXT, effort INTEGER,
    minutes INTEGER,                    -- of the middle solver
    rounds INTEGER, steps INTEGER, solved_by_logic INTEGER,
    verdict BLOB,                       -- the YAML, packed with zlib
    file TEXT,                          -- the name of the verdict file
    file_key TEXT UNIQUE,               -- the same where capitals do not count
    turned TEXT, structure TEXT,        -- equal for duplicates, as they are turned and in any disguise
    filling TEXT,                       -- equal for the same solution, in disguise too
    likeness_by TEXT,
    page TEXT, page_date TEXT, slot TEXT,   -- 'scheduled' or 'printed', for which day, in which slot
    tries INTEGER NOT NULL DEFAULT 0, seconds REAL, judged_at TEXT,
    standing INTEGER AS (               -- of several that are alike, the first by this repeats none of them
        CASE WHEN page = 'printed' THEN 0
             WHEN page = 'scheduled' THEN 1
             WHEN replaced_by IS NOT NULL THEN 4
             WHEN state = 'accepted' OR refused THEN 2
             WHEN gone IS NULL THEN 3
             ELSE 4 END) VIRTUAL
);
CREATE INDEX submissions_digest ON submissions (digest, run);
CREATE INDEX submissions_address ON submissions (address);
CREATE INDEX submissions_run ON submissions (run);
CREATE INDEX submissions_ids ON submissions (setter, id) WHERE id_written;
CREATE INDEX submissions_content ON submissions (content);
CREATE INDEX submissions_alike
    ON submissions (coalesce(structure, turned), standing, arrived, place, address);
CREATE INDEX submissions_filling ON submissions (filling);
CREATE TABLE printed (
    address TEXT PRIMARY KEY,
    digest TEXT NOT NULL,
    run INTEGER NOT NULL,
    folder TEXT NOT NULL,               -- that was named
    day TEXT NOT NULL,                  -- when it was last compared with
    id TEXT, title TEXT, setter TEXT,
    content TEXT, turned TEXT, structure TEXT, filling TEXT,
    likeness_by TEXT
) WITHOUT ROWID;
CREATE INDEX printed_digest ON printed (digest);
CREATE INDEX printed_alike ON printed (coalesce(structure, turned));
CREATE INDEX printed_filling ON printed (filling);
CREATE TABLE letters (
    letter INTEGER PRIMARY KEY AUTOINCREMENT,
    setter TEXT,                        -- NULL: nobody knows whose it is
    day TEXT NOT NULL,                  -- YYYY-MM-DD
    file TEXT NOT NULL                  -- in the folder of the verdicts
);
CREATE TABLE told (
    letter INTEGER NOT NULL REFERENCES letters,
    submission INTEGER NOT NULL,
    what TEXT NOT NULL,                 -- whatever tells news from what was told before
    PRIMARY KEY (submission, letter)
) WITHOUT ROWID;
CREATE TABLE repairs (
    submission INTEGER PRIMARY KEY,
    found_by TEXT NOT NULL,             -- what looked for them; of another version they are looked for anew
    says TEXT NOT NULL                  -- what puts the puzzle right, in words, as a list in JSON
);
CREATE TABLE letter_files (
    name TEXT PRIMARY KEY               -- files that were written for setters, so that old ones go
) WITHOUT ROWID;
CREATE TABLE marks (
    mark TEXT PRIMARY KEY               -- of this ledger alone; stands in the folder of its verdicts, too
) WITHOUT ROWID;
"""
