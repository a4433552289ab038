# SPDX-License-Identifier: MIT
"""Real shells asked what they would complete, and help read back: what the tests here share."""

import os
import pathlib
import pty
import re
import subprocess
import sys
import time

sys.path.append(str(pathlib.Path(__file__).parents[1]))
from needs import need, skip  # what the tests here take from this file too

LONGEST_S = 60

BASH = r"""
PS1='' PROMPT_COMMAND=''
bind 'set bell-style none'
bind 'set match-hidden-files off'
bind 'set enable-bracketed-paste off'
source "$SCRIPT"
tell() { printf '%s\n' "$READLINE_LINE" >>"$ANSWERS"; READLINE_LINE='' READLINE_POINT=0; }
bind '"\C-t": insert-completions'
bind -x '"\C-o": tell'
echo ready >>"$ANSWERS"
"""

# What is offered to zsh's own compadd is written down on its way.
ZSH = r"""
PS1=''
unsetopt zle_bracketed_paste beep
fpath=("$SCRIPT:h" $fpath)
autoload -U compinit && compinit -u -D
compadd() {
  if [[ ${@[1,(i)(-|--)]} == *-(O|A|D)\ * ]]; then
    builtin compadd "$@"
    return
  fi
  local -a offered
  builtin compadd -A offered "$@"
  (( $#offered )) && print -rl -- $offered >>$ANSWERS
  builtin compadd "$@"
}
tell() { zle complete-word; print -r -- . >>$ANSWERS; BUFFER=''; }
zle -N tell
bindkey '^T' tell
print ready >>$ANSWERS
"""


class Shell:
    """A shell with a completion script loaded and some folder as its own."""

    def __init__(self, kind, script, folder):
        self.kind, self.script, self.folder = kind, pathlib.Path(script), pathlib.Path(folder)
        self.environment = {"PATH": os.environ["PATH"], "HOME": str(folder), "TERM": "dumb",
                            "LC_ALL": "C.UTF-8", "SCRIPT": str(script),
                            "XDG_DATA_HOME": str(folder / ".data"),
                            "XDG_CONFIG_HOME": str(folder / ".config")}

    def asked(self, *lines):
        """For each line what may stand at its end, in order of the alphabet."""
        return {"bash": self._bash, "zsh": self._zsh, "fish": self._fish}[self.kind](lines)

    def _typed(self, words, setup, keys, end):
        """What the shell writes down of keys that come through a terminal, each answer up to `end`."""
        answers, rc = self.folder / ".answers", self.folder / ".setup"
        answers.write_text("")
        rc.write_text(setup)
        pid, terminal = pty.fork()
        if pid == 0:
            os.chdir(self.folder)
            os.execvpe(words[0], words, {**self.environment, "ANSWERS": str(answers)})
        try:
            begin = (f" source {rc}\n".encode(), "ready\n")
            for key, wanted in (begin, *((key, end) for key in keys)):
                # Read before the key is sent: a quick shell answers before this goes on.
                before = len(answers.read_text())
                os.write(terminal, key)
                self._wait(terminal, lambda: answers.read_text()[before:].endswith(wanted))
        finally:
            os.write(terminal, b"\x04")
            os.close(terminal)
            os.waitpid(pid, 0)
        return answers.read_text().split("ready\n", 1)[1]

    @staticmethod
    def _wait(terminal, has_answered):
        os.set_blocking(terminal, False)
        shown, until = b"", time.monotonic() + LONGEST_S
        while not has_answered():
            assert time.monotonic() < until, f"the shell does not answer: {shown!r}"
            try:
                shown += os.read(terminal, 65536)
            except (BlockingIOError, OSError):
                time.sleep(0.01)

    def _bash(self, lines):
        keys = [line.encode() + b"\x14\x0f" for line in lines]
        told = self._typed(["bash", "--noprofile", "--norc", "-i"], BASH, keys, "\n")
        answers = []
        for line, answer in zip(lines, told.splitlines(), strict=True):
            words = re.findall(r"(?:\\.|[^ \\])+", answer)
            begun = line.split(" ")
            kept = len([word for word in begun[:-1] if word])
            assert words[:kept] == [word for word in begun if word][:kept], answer
            # Where nothing fits, the line stays as it was typed.
            answers.append([] if words[kept:] == begun[-1:] else sorted(words[kept:]))
        return answers

    def _zsh(self, lines):
        keys = [line.encode() + b"\x14" for line in lines]
        told = self._typed(["zsh", "-d", "-f", "-i"], ZSH, keys, ".\n")
        return [sorted(set(answer.split("\n")) - {""}) for answer in
                re.split(r"^\.$", told, flags=re.M)[:-1]]

    def _fish(self, lines):
        command = 'source "$SCRIPT"; for line in $argv; complete -C $line; echo .; end'
        told = subprocess.run(["fish", "-N", "-c", command, *lines], check=True, cwd=self.folder,
                              env=self.environment, stdout=subprocess.PIPE, text=True).stdout
        return [sorted(line.split("\t")[0] for line in answer.split("\n") if line) for answer in
                re.split(r"^\.$", told, flags=re.M)[:-1]]


def help_of(program, words):
    return subprocess.run([program, *words, "--help"], check=True, stdout=subprocess.PIPE,
                          text=True).stdout


def section(text, title):
    """The lines below "Options:" and the like, up to an empty one."""
    return re.findall(f"^{title}:\n((?:.+\n)*)", text + "\n", re.M)


def commands_by_help(program):
    """Each command by its words, with its commands and long options: read from help, all the way."""
    found, ahead = {}, [()]
    while ahead:
        words = ahead.pop(0)
        text = help_of(program, words)
        options = re.findall("^  (?:-.,)?(--[a-z-]+)", "".join(section(text, "Options")), re.M)
        below = re.findall("^  ([a-z-]+)", "".join(section(text, "Subcommands")), re.M)
        found[words] = {"options": sorted(options), "commands": sorted(below)}
        ahead += [(*words, name) for name in below]
    return found
