"""Papers made one after the other in a thread of their own, so that the pages go on answering."""

from __future__ import annotations

import queue
import threading

from compliance.desk.kept_check import KeptCheck
from compliance.desk.paperwork.paper_kinds import PaperError, PaperKind, make_paper
from compliance.documents.page.errors import DocumentError
from compliance.editing.issuing import IssueError
from compliance.output.files.write_targets import TargetError
from compliance.problems import ProblemsFound
from compliance.record import record, replace
from compliance.refused import RefusedError

_MOST_KEPT = 12


@record
class PaperJob:
    """A paper that was asked for. `files` are those that were written, by path in the folder; `why` says why none
    was."""

    number: int
    kind: PaperKind
    reissue: bool = False
    is_done: bool = False
    files: tuple[str, ...] = ()
    why: str = ""


class PaperWorker:
    """Makes what is asked for, in order. The thread starts with the first paper."""

    def __init__(self, kept: KeptCheck) -> None:
        self._kept = kept
        self._lock = threading.Lock()
        self._waiting: queue.Queue[PaperJob] = queue.Queue()
        self._jobs: dict[int, PaperJob] = {}
        self._count = 0

    @property
    def jobs(self) -> tuple[PaperJob, ...]:
        """Those that wait and the last that are done, newest first."""
        with self._lock:
            return tuple(reversed(self._jobs.values()))

    def ask(self, kind: PaperKind, reissue: bool = False) -> None:
        """Nothing where the same paper waits already."""
        with self._lock:
            if any(one.kind is kind and not one.is_done for one in self._jobs.values()):
                return
            self._count += 1
            job = PaperJob(self._count, kind, reissue)
            self._jobs[job.number] = job
            for old in sorted(self._jobs)[:-_MOST_KEPT]:
                if self._jobs[old].is_done:
                    del self._jobs[old]
            if self._count == 1:
                threading.Thread(target=self._work, name="papers", daemon=True).start()
        self._waiting.put(job)

    def _work(self) -> None:
        while True:
            job = self._waiting.get()
            done = self._done(job)
            with self._lock:
                self._jobs[job.number] = done
            self._kept.tell()

    def _done(self, job: PaperJob) -> PaperJob:
        try:
            files = make_paper(self._kept.folder, job.kind, job.reissue)
            return replace(job, is_done=True, files=files)
        except ProblemsFound as found:
            why = "; ".join(dict.fromkeys(f"{one.place}: {one.wrong}" for one in found.problems))
        except RefusedError as refused:
            why = f"{refused.wrong} ({refused.instead})"
        except OSError as error:
            why = f"it cannot be written: {error.strerror or error}"
        except (PaperError, IssueError, TargetError, DocumentError) as error:
            why = str(error)
        except Exception as error:  # a fault of our own must not end the thread, nor leave the paper waiting for ever
            why = f"it could not be made, by a fault of this program ({type(error).__name__})"
        return replace(job, is_done=True, why=why)
