"""What is aboard a truck that is out, told anew: masses, deck places, boxes to stop at."""
