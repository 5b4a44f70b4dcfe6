"""What the desk is asked, and answers in processes of their own."""
