"""Ask every room, rank what they say, and offer only remedies that were tried and found to work."""

from cuttlebone.assess.answer import TO_CHANGE, Answer, Topic, TriedRemedy
from cuttlebone.assess.engine import CHECKS, assess, try_remedies

__all__ = ["CHECKS", "TO_CHANGE", "Answer", "Topic", "TriedRemedy", "assess", "try_remedies"]
