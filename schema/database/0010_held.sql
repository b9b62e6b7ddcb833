-- Nothing: this number is held for a step that is made elsewhere at the same time.
SELECT 1;
