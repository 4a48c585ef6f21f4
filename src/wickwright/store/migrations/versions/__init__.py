"""Steps from every earlier state of the tables to the present one."""
