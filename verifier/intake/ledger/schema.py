"""The tables of the ledger."""

from __future__ import annotations

__all__ = ["ADDITIONS", "APPLICATION", "CREDITS", "FIGURES", "LIKENESS", "TABLES", "VERSION"]

APPLICATION = 0x67726466
"""Stands in the head of the file, by the rules of SQLite, and says whose it is."""

VERSION = 3
"""Goes up with every change of the tables; a ledger of another version is not written to."""

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
    "rounds",
    "steps",
    "solved_by_logic",
)
"""The columns that hold the figures of a verdict."""

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
    address TEXT PRIMARY KEY,
    place BLOB NOT NULL,                -- sorts as the address does
    digest TEXT NOT NULL,               -- of everything that was sent
    line INTEGER,
    run INTEGER NOT NULL,               -- the last one in which it was there
    form TEXT, sent BLOB,               -- what was sent, packed with zlib; not kept where it cannot be read
    state TEXT NOT NULL,                -- accepted, rejected, undecided, unreadable, waiting, not judged
    provisional INTEGER NOT NULL DEFAULT 0,
    maker TEXT,
    id TEXT, title TEXT, setter TEXT, kind TEXT, grid TEXT,
    content TEXT,                       -- of the puzzle itself
    reasons TEXT NOT NULL DEFAULT '[]', -- [{"code": ..., "says": ...}]; of an unreadable one, its faults
    solutions INTEGER, complete INTEGER,
    tier INTEGER, tier_name TEXT, hardest TEXT, effort INTEGER, rounds INTEGER, steps INTEGER,
    solved_by_logic INTEGER,
    verdict BLOB,                       -- the YAML, packed with zlib
    file TEXT,                          -- the name of the verdict file
    file_key TEXT UNIQUE,               -- the same where capitals do not count
    turned TEXT, structure TEXT,        -- equal for duplicates, as they are turned and in any disguise
    filling TEXT,                       -- equal for the same solution, in disguise too
    likeness_by TEXT,
    tries INTEGER NOT NULL DEFAULT 0, seconds REAL, judged_at TEXT
);
CREATE INDEX submissions_content ON submissions (content);
CREATE INDEX submissions_alike ON submissions (coalesce(structure, turned));
CREATE INDEX submissions_filling ON submissions (filling);
CREATE TABLE printed (
    address TEXT PRIMARY KEY,
    digest TEXT NOT NULL,
    run INTEGER NOT NULL,
    id TEXT, title TEXT, setter TEXT,
    content TEXT, turned TEXT, structure TEXT, filling TEXT,
    likeness_by TEXT
) WITHOUT ROWID;
CREATE INDEX printed_alike ON printed (coalesce(structure, turned));
CREATE INDEX printed_filling ON printed (filling);
CREATE TABLE letters (
    name TEXT PRIMARY KEY               -- files that were written for setters, so that old ones go
) WITHOUT ROWID;
"""

ADDITIONS = """
CREATE TABLE IF NOT EXISTS marks (
    mark TEXT PRIMARY KEY               -- of this ledger alone; stands in the folder of its verdicts, too
) WITHOUT ROWID;
INSERT INTO marks SELECT lower(hex(randomblob(16))) WHERE NOT EXISTS (SELECT 1 FROM marks);
CREATE INDEX IF NOT EXISTS submissions_repeats ON submissions (coalesce(structure, turned), place, address);
"""
"""What a ledger of this version gets when it is first written to, if it was made before there was that."""
