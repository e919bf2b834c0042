"""The last step's end is the batch's: one touch tells both."""

from bench.brief import joined
from bench.prompting.acidity import ph_answers
from bench.prompting.view import View
from bench.shapes.prompts import Answer, Prompt
from bench.shapes.sheet import Step
from bench.steps import counts_pieces
from bench.words import say


def ended(view: View, prompt: Prompt, step: Step) -> Prompt:
    """Where only this step is left, and none was passed over, the answer that ends it ends the batch too.

    Unless something is asked between the two: one touch would pass it over.
    """
    if ph_answers(view, None):
        return prompt
    others = (each["id"] for each in view.sheet["steps"] if each is not step)
    if all(view.status(each) == "done" for each in others):
        ends = [answer for answer in prompt["answers"] if settles(view, step, answer)]
        for answer in ends:
            answer["also"] = [{"kind": "finished", "body": {}}]
        prompt["more"] = joined(prompt["more"], say("prompting-ends-batch") if ends else "")
    return prompt


def settles(view: View, step: Step, answer: Answer) -> bool:
    """Whether a step is done by an answer, and all of it: what stops short of that is asked about once more."""
    body = answer["body"]
    if counts_pieces(step):
        count = view.state["counts"].get(step["id"])
        made = count["good"] + count["partial"] if count else 0
        left = view.state["expected"][step["id"]] - made
        return answer["kind"] == "counted" and left > 0 and body.get("good", 0) == left
    return answer["kind"] == "done" or (answer["kind"] == "looked" and body.get("answer") == "yes")
