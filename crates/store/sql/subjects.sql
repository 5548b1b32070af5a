SELECT DISTINCT subject FROM facts WHERE erased = 0;
