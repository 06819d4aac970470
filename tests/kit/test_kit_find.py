"""A plan's kit stands under its own folder or the house file's; whatever else it names is refused."""

import os

import pytest

from riglint.kit.find import KitRefused, kit_file
from riglint.kit.read import read_kit
from riglint.plan.load import load_plan
from riglint.reading.problems import ReadingFailed
from tests.kit.rigs import KIT, PLAN


@pytest.fixture
def folders(tmp_path):
    house, plans = tmp_path / "house", tmp_path / "house" / "plans"
    (plans / "gear").mkdir(parents=True)
    (tmp_path / "secret.yaml").write_text(KIT)
    (house / "kit.yaml").write_text(KIT)
    (plans / "gear" / "own.yaml").write_text(KIT)
    return [plans, house]


def test_under_the_plans_folder(folders):
    assert kit_file("gear/own.yaml", folders) == folders[0] / "gear" / "own.yaml"


def test_under_the_house_files_folder(folders):
    assert kit_file("kit.yaml", folders) == folders[1] / "kit.yaml"


def test_the_plans_own_folder_goes_first(folders):
    (folders[0] / "kit.yaml").write_text(KIT)
    assert kit_file("kit.yaml", folders) == folders[0] / "kit.yaml"


@pytest.mark.parametrize(
    ("named", "said"),
    [
        ("/etc/passwd", "isn't named from a folder"),
        ("C:\\kit.yaml", "isn't named from a folder"),
        ("C:kit.yaml", "isn't named from a folder"),
        ("\\\\server\\kit.yaml", "isn't named from a folder"),
        ("\\kit.yaml", "isn't named from a folder"),
        ("../kit.yaml", "leads out"),
        ("gear/../../kit.yaml", "leads out"),
        ("gear\\..\\..\\kit.yaml", "leads out"),
        ("none.yaml", "there is no kit"),
        ("gear/own.yaml/kit.yaml", "there is no kit"),
        ("gear", "is no file"),
        (".", "is no file"),
        ("kit\0.yaml", "can't be opened"),
        ("k" * 5000, "can't be opened"),
    ],
)
def test_what_is_refused(folders, named, said):
    with pytest.raises(KitRefused, match=said):
        kit_file(named, folders)


def test_a_link_that_leads_out(folders, tmp_path):
    (folders[0] / "link.yaml").symlink_to(tmp_path / "secret.yaml")
    (folders[0] / "out").symlink_to(tmp_path)
    for named in ("link.yaml", "out/secret.yaml"):
        with pytest.raises(KitRefused, match="leads out of its folder"):
            kit_file(named, folders)


def test_a_link_to_itself(folders):
    (folders[0] / "self.yaml").symlink_to(folders[0] / "self.yaml")
    with pytest.raises(KitRefused):
        kit_file("self.yaml", folders)


def test_a_link_within_the_folder(folders):
    (folders[0] / "link.yaml").symlink_to(folders[0] / "gear" / "own.yaml")
    assert kit_file("link.yaml", folders).name == "link.yaml"


def test_a_pipe_is_no_file(folders):
    os.mkfifo(folders[0] / "pipe.yaml")
    with pytest.raises(KitRefused, match="is no file"):
        kit_file("pipe.yaml", folders)


def test_without_a_folder_there_is_nothing_to_find():
    with pytest.raises(KitRefused, match="there is no kit"):
        kit_file("kit.yaml", [])


def test_a_refused_kit_is_a_problem_of_the_plan(folders):
    plan = PLAN.replace("title: Gear of a kit", "title: Gear of a kit\nkit: ../secret.yaml")
    with pytest.raises(ReadingFailed) as failed:
        load_plan(plan, "plan.yaml", lambda named: kit_file(named, folders))
    [problem] = failed.value.problems
    assert (problem.line, problem.column, problem.place) == (3, 6, "/kit")


def test_a_bad_kit_does_not_hide_what_is_wrong_with_the_plan():
    plan = PLAN.replace("distance: 5 m", "distance: 5")
    with pytest.raises(ReadingFailed) as failed:
        load_plan(plan, "plan.yaml", lambda _: read_kit("rig_kit: 1\ngear: {A: {is: piece}}", "kit.yaml"))
    assert [(p.file, p.place) for p in failed.value.problems] == [
        ("kit.yaml", ""),
        ("plan.yaml", "/bodies/van/moves/distance"),
    ]
