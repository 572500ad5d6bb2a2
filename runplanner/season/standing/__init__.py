"""How things stand: the visits planned so far, with people, stocks and the honey house."""
