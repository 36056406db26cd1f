#!/usr/bin/env bash
# From a fresh Debian-like machine to a page about a chess club's games: installs what is missing, builds the Python
# package, runs the review and says where the page is.
steps=4
source "$(dirname "${BASH_SOURCE[0]}")/setup.sh"

step "Looking for a compiler, CMake and Python"
prepare_machine

step "Preparing the Python environment build/venv"
prepare_python

step "Building the Python package keysquare (a few minutes the first time)"
install_package || die "The Python package was not built: the lines above say why. If this folder was moved, delete build/ and run this again."

step "Reviewing the games of examples/data/club.pgn"
page=$build/club_review.html
logged club_review python examples/club_review.py examples/data/club.pgn -o "$page" ||
    die "The review failed: the lines above say why."

printf '\nThe page is %s\nOpen it in any browser; it needs no network.\n' "$page"
